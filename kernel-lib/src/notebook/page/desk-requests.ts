import { NotebookProblem } from "../format";
import type { ReviewerOpinion } from "../review";
import type { CellComment } from "./desk-notebook";
import type { ReviewDesk } from "./review-desk";

/** What a page may ask of the desk, as it was sent. */
type Sent = Readonly<Record<string, unknown>>;

/**
 * Carries out what the page sent; what it returns is shown to the reviewer. Nothing sent is taken
 * on trust.
 */
export async function carryOut(
  action: string,
  body: unknown,
  desk: ReviewDesk,
  sign: Parameters<ReviewDesk["sign"]>[1],
): Promise<string> {
  if (typeof body !== "object" || body === null || Array.isArray(body))
    throw new NotebookProblem("expected an object of JSON");
  const sent = body as Sent;
  switch (action) {
    case "run":
      desk.run(whole(sent, "notebook"), whole(sent, "to"));
      return "";
    case "stop":
      desk.stop();
      return "";
    case "over":
      await desk.startOver(whole(sent, "notebook"));
      return "";
    case "comment":
      await desk.comment(
        whole(sent, "notebook"),
        whole(sent, "cell"),
        commentIn(sent),
        typeof sent["before"] === "object" && sent["before"] !== null
          ? commentIn(sent["before"] as Sent)
          : undefined,
      );
      return "";
    case "look":
      return desk.look(whole(sent, "notebook"), text(sent, "expression", 2000));
    case "sign":
      await desk.sign(text(sent, "reviewer", 200), sign);
      return "";
    default:
      throw new NotebookProblem(`the page asked for ${JSON.stringify(action)}, which is not known`);
  }
}

function commentIn(sent: Sent): CellComment {
  return { remark: text(sent, "remark", 10_000), opinion: opinion(sent) };
}

function whole(sent: Sent, name: string): number {
  const value = sent[name];
  if (typeof value !== "number" || !Number.isInteger(value))
    throw new NotebookProblem(`${name} ${JSON.stringify(value)}: expected a whole number`);
  return value;
}

function text(sent: Sent, name: string, most: number): string {
  const value = sent[name];
  if (typeof value !== "string" || value.length > most)
    throw new NotebookProblem(`${name}: expected a text of at most ${most} characters`);
  return value;
}

function opinion(sent: Sent): ReviewerOpinion | undefined {
  const value = sent["opinion"];
  if (value !== "" && value !== "agree" && value !== "question")
    throw new NotebookProblem(
      `opinion ${JSON.stringify(value)}: expected agree, question or nothing`,
    );
  return value === "" ? undefined : value;
}
