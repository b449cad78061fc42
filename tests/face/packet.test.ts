import { appendFileSync, existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { openPacket, openStudy, type Packet, type Study } from "../../kernel-lib/src";
import { studyPacket } from "../../kernel-lib/src/face/study-packet";

const folder = mkdtempSync(join(tmpdir(), "packet-"));
let study: Study;
let packet: Packet;
beforeAll(async () => {
  study = await openStudy({
    data: "datasets/demo",
    keep: "none",
    where: "bar_size == '13' && failure_mode == 'bond'",
  });
  packet = study.packet();
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it("holds what the writer of packets holds, of the tests that the study looks at", () => {
  const { model } = studyPacket(study, { tests: study.chosen.table });
  const blocks = model.sections.flatMap((section) => section.blocks);
  const table = (id: string) =>
    blocks.flatMap((block) =>
      block.kind === "table" && block.table.id === id ? [block.table] : [],
    )[0]!;
  expect(packet.table("account").rows).toEqual(table("account-of-rows").rows);
  expect(packet.table("evidence").rows).toEqual(table("verdicts-by-mode-and-material").rows);
  const rows = packet.table("account").column("n");
  expect(rows.reduce<number>((sum, n) => sum + Number(n), 0)).toBe(
    study.length + study.data.rejected.length,
  );
  expect(packet.answer).toMatch(/^(Proposed|No factor is proposed)/);
  expect([...packet.findings()].length).toBe(5);
  expect(packet.table("files").column("file")).toContain("packet.pdf");
});

it("is saved with a manifest that it is checked against", async () => {
  expect(packet.check().text).toContain("has not been saved");
  expect(await packet.save(folder)).toBe(folder);
  expect(packet.check().text).toContain("is as listed in manifest.json");
  for (const name of ["packet.html", "packet.docx", "packet.pdf", "hand-check.xlsx"])
    expect(existsSync(join(folder, name)), name).toBe(true);
  const received = await openPacket(folder);
  expect(received.check().text).toContain("each as listed in manifest.json");
  expect(received.table("files").column("file")).toContain("hand-check.xlsx");
  appendFileSync(join(folder, "NOTICES.txt"), "changed");
  expect((await openPacket(folder)).check().text).toContain("NOTICES.txt");
}, 240_000);
