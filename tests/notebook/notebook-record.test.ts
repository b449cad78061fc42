import { expect, test } from "vitest";
import type { Notebook } from "../../kernel-lib/src/notebook";
import { readRecord } from "../../kernel-lib/src/notebook/run";
import { withRecord } from "../../kernel-lib/src/notebook/run/notebook-record";
import type { RecordedEnvironment } from "../../kernel-lib/src/notebook/run";

const stamp = (node: string): RecordedEnvironment => ({
  node,
  tslab: "1",
  library: "l",
  lock_file: "f",
  inputs: {},
});
const stamped = (node: string): object => ({ code_comparison: { recorded: stamp(node) } });

/** A notebook with a stamp in its metadata and in outputs, where given. */
function notebookWith(metadata: object, ...outputs: readonly object[]): Notebook {
  const cells = outputs.map((own, index) => ({
    cell_type: "code",
    id: `c${index}`,
    metadata: {},
    source: "study.basis()",
    execution_count: index + 1,
    outputs: [
      { output_type: "stream", name: "stdout", text: "x" },
      { output_type: "execute_result", data: {}, metadata: own, execution_count: index + 1 },
    ],
  }));
  return { nbformat: 4, nbformat_minor: 5, metadata, cells } as unknown as Notebook;
}

// A run in Jupyter leaves the metadata of an earlier run as they are: the outputs know better.
test.each([
  ["nothing says it", notebookWith({}, {}), undefined],
  ["the metadata say it", notebookWith(stamped("20"), {}), "20"],
  ["an output says it", notebookWith({}, {}, stamped("22")), "22"],
  ["both say it: the output counts", notebookWith(stamped("20"), stamped("22")), "22"],
  ["two outputs say it: the later counts", notebookWith({}, stamped("20"), stamped("24")), "24"],
  ["what stands there is no record", notebookWith({ code_comparison: 3 }, { a: 1 }), undefined],
])("what a notebook was recorded with: %s", (_name, notebook, node) => {
  expect(readRecord(notebook)?.node).toBe(node);
});

test("a run of ours takes the place of what an output said", () => {
  const recorded = withRecord(notebookWith({ title: "kept" }, stamped("18")), stamp("20"));
  expect(readRecord(recorded)?.node).toBe("20");
  expect(recorded.metadata["title"]).toBe("kept");
  expect(JSON.stringify(recorded.cells)).not.toContain("recorded");
});
