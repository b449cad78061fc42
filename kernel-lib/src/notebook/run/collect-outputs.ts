import { LIMITS } from "../format";
import type { CellOutput, MimeBundle } from "../format";
import type { OutputMessage } from "../kernel-client";

/** Gathers a cell's output messages into the outputs that nbformat stores. */
export class OutputCollector {
  readonly outputs: CellOutput[] = [];
  private readonly byDisplayId = new Map<
    string,
    { data: MimeBundle; metadata: Record<string, unknown> }
  >();
  private characters = 0;
  private cut = false;

  /** Takes one message in. Messages that are no outputs (such as execute_input) are passed over. */
  add(message: OutputMessage): void {
    if (message.type === "clear_output") {
      this.outputs.length = 0;
      return;
    }
    const output = this.toOutput(message);
    if (!output || !this.fits(output)) return;
    const last = this.outputs[this.outputs.length - 1];
    if (
      output.output_type === "stream" &&
      last?.output_type === "stream" &&
      last.name === output.name
    ) {
      last.text = `${String(last.text)}${String(output.text)}`;
    } else {
      this.outputs.push(output);
    }
  }

  private toOutput({ type, content }: OutputMessage): CellOutput | undefined {
    const data = recordOf(content["data"]);
    const metadata = recordOf(content["metadata"]);
    switch (type) {
      case "stream":
        return {
          output_type: "stream",
          name: String(content["name"]),
          text: String(content["text"]),
        };
      case "execute_result":
        return {
          output_type: "execute_result",
          data,
          metadata,
          execution_count: Number(content["execution_count"]),
        };
      case "display_data": {
        const output: CellOutput = { output_type: "display_data", data, metadata };
        const id = recordOf(content["transient"])["display_id"];
        if (typeof id === "string") this.byDisplayId.set(id, output);
        return output;
      }
      case "update_display_data": {
        const shown = this.byDisplayId.get(String(recordOf(content["transient"])["display_id"]));
        if (shown) Object.assign(shown, { data, metadata });
        return undefined;
      }
      case "error":
        return {
          output_type: "error",
          ename: String(content["ename"]),
          evalue: String(content["evalue"]),
          traceback: Array.isArray(content["traceback"]) ? content["traceback"].map(String) : [],
        };
      default:
        return undefined;
    }
  }

  /** Keeps a cell's outputs within the limit. An error is always kept: it says what failed. */
  private fits(output: CellOutput): boolean {
    if (output.output_type === "error") return true;
    this.characters +=
      output.output_type === "stream" ? output.text.length : JSON.stringify(output.data).length;
    if (this.characters <= LIMITS.outputCharacters) return true;
    if (!this.cut) {
      this.cut = true;
      const limit = `${LIMITS.outputCharacters / 1048576} million characters`;
      this.outputs.push({
        output_type: "stream",
        name: "stderr",
        text: `[output cut: this cell put out more than ${limit}]\n`,
      });
    }
    return false;
  }
}

function recordOf(value: unknown): Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value)
    ? (value as Record<string, unknown>)
    : {};
}
