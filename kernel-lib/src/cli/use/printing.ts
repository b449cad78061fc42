import { printable } from "../../formula";

/** Prints a line of an answer. The only way to standard output. */
export function say(text: string): void {
  console.log(printable(text));
}

/** Prints a line that is no part of the answer: a message, an error, progress beside data. */
export function tell(text: string): void {
  console.error(printable(text));
}
