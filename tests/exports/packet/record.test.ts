import { expect, it } from "vitest";
import { commentsSection, readComments } from "../../../kernel-lib/src/exports/packet/comments";
import { movedBetween, movedSection } from "../../../kernel-lib/src/exports/packet/moved-numbers";

const answered = {
  comment: "State the cure.",
  from: "member 3",
  clause: "17.6.5",
  answer: "Stated.",
  change: "Limits name the adhesives.",
};

it("reads comments and names what of them cannot be used", () => {
  const open = { comment: "Too low.", from: "member 5", clause: "17.7.2" };
  const read = readComments(JSON.stringify([answered, open]));
  expect(read[0]).toEqual(answered);
  expect(read[1]).toEqual({ ...open, answer: "", change: "" });
  const section = commentsSection(read);
  expect(section.blocks[0]).toMatchObject({
    text: "2 comments are on file, 1 of them not yet answered.",
  });
  const [, block] = section.blocks;
  expect(block?.kind === "table" ? block.table.column("answer") : []).toEqual(["Stated.", "open"]);
  expect(commentsSection([]).blocks).toMatchObject([{ kind: "paragraph" }]);
  for (const [text, says] of [
    ["{", "not valid JSON"],
    ["{}", "holds no list"],
    ["[1]", "comment 1 is no object"],
    [JSON.stringify([{ ...answered, vote: "no" }]), 'has a field "vote"'],
    [JSON.stringify([answered, { ...answered, from: " " }]), 'comment 2, from: " "'],
    [JSON.stringify([{ ...answered, answer: 3 }]), "comment 1, answer: 3"],
  ] as const)
    expect(() => readComments(text)).toThrow(says);
});

it("says which numbers and texts moved, by the name of the group and not by its place", () => {
  const group = (label: string, lower: number | null) => ({ label, lower, n: 120 });
  const version = (groups: object[], text: string): string =>
    JSON.stringify({ groups, drafts: [{ change: "bond", text: { outside: text } }], choices: [1] });
  const before = version([group("bond, BFRP", 0.818), group("bond, GFRP", 0.929)], "Static.");
  expect(movedBetween(before, before)).toEqual([]);
  const now = version(
    [group("bar shear, BFRP", 1.05), group("bond, BFRP", 0.83), group("bond, GFRP", 0.929)],
    "Static tests.",
  );
  const moved = movedBetween(before, now);
  expect(moved).toContainEqual({ what: "groups, bond, BFRP, lower", before: 0.818, now: 0.83 });
  expect(moved).toContainEqual({
    what: "drafts, bond, text, outside",
    before: "Static.",
    now: "Static tests.",
  });
  expect(moved).toContainEqual({ what: "groups, bar shear, BFRP, n", before: null, now: 120 });
  // The group whose numbers stand moved in place only.
  expect(moved.filter(({ what }) => what.includes("bond, GFRP"))).toEqual([]);
  const section = movedSection(moved, "exports/first");
  expect(section.blocks[0]).toMatchObject({
    text: `${moved.length} values and texts differ from exports/first.`,
  });
});
