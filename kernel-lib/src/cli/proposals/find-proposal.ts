import { mkdir, writeFile } from "node:fs/promises";
import { basename, dirname, extname, join } from "node:path";
import type { CodeId, Mode } from "../../face/results/generated-names";
import type { FactorOptions } from "../../face/proposals/derived-factors";
import { Option } from "commander";
import { FRP_MODES_ACI318 } from "../../proposals";
import type { Tests } from "../../face/tests/tests";
import type { ProposedChange } from "../../proposals";
import { dataFolders, readRows } from "../use/chosen-rows";
import { absent } from "../use/help";
import { InvalidInput, names, oneOf } from "../use/invalid-input";
import { say } from "../use/printing";
import { codeNamed } from "../use/option-declarations";
import { terminalWidth } from "../use/terminal-width";
import { brokenLine } from "../../formula";

/** How a factor is looked for. */
interface FindProposal {
  readonly code: CodeId;
  readonly level: "expected" | "nominal" | "design";
  readonly fractile: number;
  readonly confidence: number;
  readonly criterion?: FactorOptions["criterion"];
  /** Modes of which factors are looked for; default all. */
  readonly modes?: readonly [Mode, ...Mode[]];
  /** The file to write; several changes get their id added to its name. */
  readonly file: string;
}

/** The modes in which FRP bars may get a factor. */
const MODES = Object.keys(FRP_MODES_ACI318) as Mode[];

/** `--find` and `--modes` of `propose`. */
export const findOptions = (): readonly [Option, Option] => [
  absent(
    new Option(
      "--find <file>",
      "derive one factor a mode for FRP bars from the tests and write it to this JSON file",
    ),
    "judge the proposals given",
  ),
  absent(
    new Option("--modes <modes>", "with --find: these modes, separated by commas"),
    "every mode",
  ),
];

/** What `propose --find` takes of the options of `propose`. */
interface FindOptions {
  readonly find: string;
  readonly modes?: string;
  readonly codes?: string;
  readonly data?: readonly string[];
  readonly where?: string;
}

/** Reads what `propose --find` was asked, and the tests. @throws InvalidInput */
export async function runFind(
  files: readonly string[],
  options: FindOptions,
  settings: Pick<FindProposal, "level" | "fractile" | "confidence" | "criterion">,
): Promise<number> {
  if (files.length > 0)
    throw new InvalidInput(`--find takes no proposal, and ${files.join(", ")} was named.`);
  const [first, ...others] =
    options.modes === undefined
      ? []
      : names("modes", options.modes).map((mode) => oneOf<Mode>("modes", mode, MODES));
  const code = codeNamed(options.codes ?? "aci318-19").id as CodeId;
  const { tests } = await readRows(dataFolders(options.data), options.where);
  return findProposal(tests, {
    ...settings,
    code,
    file: options.find,
    ...(first === undefined ? {} : { modes: [first, ...others] as const }),
  });
}

/**
 * Derives one factor a mode for FRP bars from the tests, tells by which criterion
 * and whether it stands without each study, and writes each change as the JSON file of a proposal.
 * @returns exit code 0 where a factor was found, else 1
 */
async function findProposal(tests: Tests, asked: FindProposal): Promise<number> {
  const { code, level, fractile, confidence, criterion } = asked;
  const ratios = tests.compare(code, { level });
  const factors = (asked.modes === undefined ? ratios : ratios.mode(...asked.modes))
    .by("mode", "bar_material")
    .judge({ fractile, confidence })
    .factors(criterion === undefined ? {} : { criterion });
  const proposal = factors.propose();
  const paragraph = (text: string): void => say(`${brokenLine(text, terminalWidth(), 0)}\n`);
  say(`${factors.table("criteria").toText(terminalWidth())}\n`);
  for (const finding of factors.findings()) paragraph(finding);
  paragraph(proposal.answer);
  const found = proposal.proposed;
  if (found.length === 0) return 1;
  paragraph(proposal.leaveOut("study_id").answer);
  const files = found.map((one) => fileOf(asked.file, one, found.length));
  for (const [k, file] of files.entries()) {
    await mkdir(dirname(file), { recursive: true });
    await writeFile(file, `${JSON.stringify(asFile(found[k]!), null, 2)}\n`);
  }
  paragraph(`Written: ${files.join(", ")}. Before and after: code-comparison propose ${files[0]!}`);
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
