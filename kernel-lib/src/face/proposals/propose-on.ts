import type { TestTable } from "../../dataset";
import { changedProvisions, type ProposedChange } from "../../proposals";
import { codeNamed, levelOf } from "../results/code-named";
import type { CodeId } from "../results/generated-names";
import type { Setting } from "../results/result";
import { proposedChange, type ChangeInput } from "./change-input";
import { readChanges } from "./change";
import { Proposal } from "./proposal";

/** A proposal of a notebook's own changes, judged on these tests. */
export function proposeOn(
  setting: Setting,
  tests: TestTable,
  code: CodeId,
  changes: ChangeInput | readonly ChangeInput[],
): Proposal {
  const list = Array.isArray(changes)
    ? (changes as readonly ChangeInput[])
    : [changes as ChangeInput];
  const present = codeNamed(code);
  return of(
    setting,
    tests,
    code,
    list.map((one, k) => proposedChange(one, present, k)),
  );
}

/** The proposal of a JSON file, for the code of the provisions that it changes. */
export async function openProposalOn(
  setting: Setting,
  tests: TestTable,
  path: string,
): Promise<Proposal> {
  const proposed = await readChanges(path);
  const codes = new Set(
    proposed.map((one) => (changedProvisions(one)[0] ?? "").replace(/\/.*$/, "")),
  );
  const [code = ""] = codes;
  if (codes.size !== 1)
    throw new RangeError(
      `${path} changes ${codes.size === 0 ? "nothing" : [...codes].join(" and ")}; expected changes of one code.`,
    );
  return of(setting, tests, code as CodeId, proposed);
}

function of(
  setting: Setting,
  tests: TestTable,
  code: CodeId,
  proposed: readonly ProposedChange[],
): Proposal {
  const present = codeNamed(code);
  return new Proposal({
    setting,
    code: present,
    tests,
    proposed,
    settings: { level: levelOf(present, undefined, setting.settings?.level) },
    question: setting.judge ?? {},
    factors: [],
    step: 0.05,
    nothing: "The list of changes is empty.",
  });
}
