import { spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { checkSignature, signatureFile, writeSignature } from "../../kernel-lib/src/notebook";
import { scratchFolder } from "./notebook-in-scratch";

describe("the detached signature", () => {
  // RFC 8032, section 7.1, test 1 (from memory, agrees with Node): the seed, the public key, and
  // the signature of no bytes.
  const seed = "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60";
  const known = "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a";
  const signed = [
    "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e06522490155",
    "5fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
  ].join("");
  const pem = (bytes: string, kind: string): string =>
    `-----BEGIN ${kind} KEY-----\n${Buffer.from(bytes, "hex").toString("base64")}\n-----END ${kind} KEY-----\n`;

  test("is that of RFC 8032, and holds for the bytes and the key that it was made with", async () => {
    const folder = scratchFolder();
    const at = (name: string): string => join(folder, name);
    writeFileSync(at("key.pem"), pem(`302e020100300506032b657004220420${seed}`, "PRIVATE"));
    writeFileSync(at("public.pem"), pem(`302a300506032b6570032100${known}`, "PUBLIC"));
    writeFileSync(at("other.pem"), pem(`302a300506032b6570032100${signed.slice(0, 64)}`, "PUBLIC"));
    writeFileSync(at("record.json"), "");
    const key = await writeSignature(at("record.json"), at("key.pem"));
    const parts = JSON.parse(readFileSync(signatureFile(at("record.json")), "utf8")) as Record<
      string,
      string
    >;
    expect(Buffer.from(parts["signature"]!, "base64").toString("hex")).toBe(signed);
    expect(Buffer.from(parts["public_key"]!, "base64").toString("hex")).toBe(known);
    for (const file of [undefined, at("public.pem"), at("key.pem")])
      expect(await checkSignature(at("record.json"), file)).toEqual({
        signedBy: key,
        problems: [],
      });
    expect((await checkSignature(at("record.json"), at("other.pem"))).problems).toEqual([
      `the record is signed with the key ${key}, not with ${at("other.pem")}`,
    ]);
    writeFileSync(at("record.json"), " ");
    expect((await checkSignature(at("record.json"))).problems).toEqual([
      `${signatureFile(at("record.json"))} is not the signature of this record: one of the two was changed`,
    ]);
    writeFileSync(signatureFile(at("record.json")), "{}");
    expect((await checkSignature(at("record.json"))).problems[0]).toContain("is no signature");
    expect(await checkSignature(at("key.pem"))).toEqual({ problems: [] });
    expect((await checkSignature(at("key.pem"), at("public.pem"))).problems[0]).toContain(
      "there is no signature",
    );
    await expect(writeSignature(at("record.json"), at("public.pem"))).rejects.toThrow(
      "is no private Ed25519 key",
    );
    await expect(writeSignature(at("record.json"), at("none"))).rejects.toThrow("there is no key");
  });

  const tool = spawnSync("ssh-keygen", ["-?"]).error === undefined;
  if (!tool) console.log("skipped: keys of OpenSSH, as ssh-keygen is not installed");
  test.skipIf(!tool)(
    "takes a key of ssh-keygen, under the fingerprint that it prints",
    async () => {
      const folder = scratchFolder();
      const [key, record] = [join(folder, "key"), join(folder, "record.json")];
      const make = (file: string, word: string): unknown =>
        spawnSync("ssh-keygen", ["-q", "-t", "ed25519", "-N", word, "-C", "", "-f", file]);
      make(key, "");
      make(`${key}-locked`, "a passphrase");
      const printed = spawnSync("ssh-keygen", ["-l", "-f", `${key}.pub`], { encoding: "utf8" });
      writeFileSync(record, "{}");
      const signedBy = await writeSignature(record, key);
      expect(printed.stdout).toContain(` ${signedBy} `);
      expect(await checkSignature(record, `${key}.pub`)).toEqual({ signedBy, problems: [] });
      await expect(writeSignature(record, `${key}-locked`)).rejects.toThrow("without a passphrase");
    },
  );
});
