import { mkdir, writeFile } from "node:fs/promises";
import { basename, dirname, extname, join } from "node:path";
import type { CodeId } from "../../face/results/generated-names";
import type { FactorOptions } from "../../face/proposals/derived-factors";
import type { FailureMode } from "../../dataset";
import type { Tests } from "../../face/tests/tests";
import type { ProposedChange } from "../../proposals";
import { terminalWidth } from "../use/terminal-width";
import { brokenLine } from "../../formula";

/** How a factor is looked for. */
export interface FindProposal {
  readonly code: CodeId;
  readonly level: "expected" | "nominal" | "design";
  readonly fractile: number;
  readonly confidence: number;
  readonly criterion?: FactorOptions["criterion"];
  /** Modes of which factors are looked for; default all. */
  readonly modes?: readonly FailureMode[];
  /** The file to write; several changes get their id added to its name. */
  readonly file: string;
}

/**
 * `propose --find`: derives one factor a mode for FRP bars from the tests, tells by which criterion
 * and whether it stands without each study, and writes each change as the JSON file of a proposal.
 * @returns exit code 0 where a factor was found, else 1
 */
export async function findProposal(tests: Tests, asked: FindProposal): Promise<number> {
  const { code, level, fractile, confidence, criterion } = asked;
  const ratios = tests.compare(code, { level });
  const factors = (asked.modes === undefined ? ratios : ratios.mode(...asked.modes))
    .by("mode", "bar_material")
    .judge({ fractile, confidence })
    .factors(criterion === undefined ? {} : { criterion });
  const proposal = factors.propose();
  const say = (text: string): void => console.log(`${brokenLine(text, terminalWidth(), 0)}\n`);
  console.log(`${factors.table("criteria").toText(terminalWidth())}\n`);
  for (const finding of factors.findings()) say(finding);
  say(proposal.answer);
  const found = proposal.proposed;
  if (found.length === 0) return 1;
  say(proposal.leaveOut("study_id").answer);
  const files = found.map((one) => fileOf(asked.file, one, found.length));
  for (const [k, file] of files.entries()) {
    await mkdir(dirname(file), { recursive: true });
    await writeFile(file, `${JSON.stringify(asFile(found[k]!), null, 2)}\n`);
  }
  say(`Written: ${files.join(", ")}. Before and after: code-comparison propose ${files[0]!}`);
  return 0;
}

function fileOf(file: string, { id }: ProposedChange, changes: number): string {
  if (changes === 1) return file;
  return join(dirname(file), `${basename(file, extname(file))}-${id}${extname(file) || ".json"}`);
}

/** A change as a file states it: whether tests support it is derived again on reading. */
function asFile(change: ProposedChange): object {
  return Object.fromEntries(
    Object.entries(change).filter(([name]) => name !== "criterion" && name !== "supported"),
  );
}
