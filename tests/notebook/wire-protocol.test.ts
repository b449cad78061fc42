import { describe, expect, test } from "vitest";
import {
  decodeMessage,
  encodeRequest,
  sign,
  verify,
} from "../../kernel-lib/src/notebook/wire-protocol";

describe("signing", () => {
  test("HMAC-SHA256 of RFC 4231, test case 2", () => {
    const mac = "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843";
    expect(sign("Jefe", ["what do ya want ", "for nothing?"])).toBe(mac);
    expect(verify("Jefe", ["what do ya want for nothing?"], mac)).toBe(true);
    expect(verify("Jefe", ["what do ya want for nothing!"], mac)).toBe(false);
    expect(verify("Jefe", ["what do ya want for nothing?"], "")).toBe(false);
  });
});

describe("messages", () => {
  const { id, frames } = encodeRequest("key", "session", "execute_request", { code: "1" });
  const raw = frames.map((frame) => Buffer.from(frame));

  test("what is encoded is decoded, behind any routing prefix", () => {
    const message = decodeMessage("key", [Buffer.from("route"), ...raw]);
    expect(message).toMatchObject({
      header: { msg_id: id, msg_type: "execute_request", version: "5.3" },
      content: { code: "1" },
    });
  });

  test("a changed, foreign or cut message is refused", () => {
    expect(decodeMessage("other key", raw)).toBeUndefined();
    expect(
      decodeMessage("key", [...raw.slice(0, -1), Buffer.from('{"code":"2"}')]),
    ).toBeUndefined();
    expect(decodeMessage("key", raw.slice(0, -1))).toBeUndefined();
    expect(decodeMessage("key", [])).toBeUndefined();
  });
});
