import { Script } from "node:vm";
import { wholeText } from "../format";
import { KernelDied } from "../kernel-client";
import type { KernelClient } from "../kernel-client";

const NAME = /^[\p{L}_$][\p{L}\p{N}_$]*(?:\.[\p{L}_$][\p{L}\p{N}_$]*|\[\d+\])*$/u;
const STRINGS = /"(?:[^"\\]|\\.)*"|'(?:[^'\\]|\\.)*'/g;
// Of a template only what it evaluates can act.
const TEMPLATE = /`((?:[^`\\]|\\.)*)`/g;
const evaluated = (_whole: string, inner: string): string =>
  `"" + (${[...inner.matchAll(/\$\{([^}]*)\}/g)].map(([, part]) => part).join("), (")})`;

/** Methods and functions of JavaScript that change what they are called on. */
const CHANGING =
  /\.\s*(?:push|pop|shift|unshift|splice|sort|reverse|fill|copyWithin)\s*\(|\bObject\s*\.\s*(?:assign|define\w+|setPrototypeOf)\b|\bReflect\s*\.\s*(?:set|delete\w+|define\w+)\b/;
const ASSIGNMENT = /(?<![=!<>])=(?![=>])|\+\+|--|\bdelete\b|>>=|<<=/;

export interface EvaluatedExpression {
  /** The value as the kernel shows it, or what is wrong with the expression. */
  readonly shown: string;
  /** True when the expression is more than a name, so that looking may have changed something. */
  readonly mayAct: boolean;
  readonly kernelAlive: boolean;
}

/** Longest time for a look, then the interrupt; and from there to the kill. */
const LOOK_MS = 10_000;
const GRACE_MS = 2000;

/**
 * Evaluates one JavaScript expression in the kernel. Statements and assignments are refused: a
 * reviewer looks, and the cells after this must not depend on it.
 */
export async function evaluateExpression(
  kernel: KernelClient,
  text: string,
): Promise<EvaluatedExpression> {
  const expression = text.trim();
  const refusal = refusalOf(expression);
  if (refusal !== undefined) return { shown: refusal, mayAct: false, kernelAlive: true };
  const mayAct = !NAME.test(expression);
  const parts: string[] = [];
  const interrupt = setTimeout(() => kernel.interrupt(), LOOK_MS);
  const kill = setTimeout(() => void kernel.kill(), LOOK_MS + GRACE_MS);
  try {
    const reply = await kernel.execute(
      mayAct ? `(${expression})` : expression,
      ({ content }) => {
        const plain =
          (content["data"] as Record<string, unknown> | undefined)?.["text/plain"] ??
          content["text"];
        if (typeof plain === "string") parts.push(wholeText(plain));
      },
      false,
    );
    const shown =
      reply["status"] === "ok"
        ? parts.join("\n") || "(nothing: undefined or null)"
        : `${String(reply["ename"])}: ${String(reply["evalue"])}`;
    return { shown, mayAct, kernelAlive: true };
  } catch (error) {
    if (!(error instanceof KernelDied)) throw error;
    return { shown: `this look ended the kernel: ${error.message}`, mayAct, kernelAlive: false };
  } finally {
    clearTimeout(interrupt);
    clearTimeout(kill);
  }
}

function refusalOf(expression: string): string | undefined {
  if (expression === "")
    return "give a name or an expression, such as ratios, rows[0].ratio or rows.length";
  const acting = expression.replace(STRINGS, '""').replace(TEMPLATE, evaluated);
  if (ASSIGNMENT.test(acting)) return "looking must not change anything: assignments are refused";
  if (CHANGING.test(acting))
    return "looking must not change anything: use a copy, such as [...rows].length, or toSorted for sort";
  try {
    // What stands in round as well as in square brackets is an expression; a list of statements is
    // not.
    new Script(`(${expression}\n)`);
    new Script(`[${expression}\n]`);
    return undefined;
  } catch (error) {
    return `no expression: ${(error as Error).message}`;
  }
}
