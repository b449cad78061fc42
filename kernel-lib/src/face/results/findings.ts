import { proseBundle } from "./prose";

/** Sentences, one finding each; shown as a list of bullets. */
export class Findings implements Iterable<string> {
  constructor(private readonly sentences: readonly string[]) {}

  get length(): number {
    return this.sentences.length;
  }

  /** The sentences, one a line. */
  get text(): string {
    return this.sentences.join("\n");
  }

  [Symbol.iterator](): Iterator<string> {
    return this.sentences[Symbol.iterator]();
  }

  [Symbol.for("code-comparison.display")](): Record<string, string> {
    const bullets = this.sentences.map((sentence) => `- ${sentence}`).join("\n");
    return proseBundle(bullets === "" ? "No findings." : bullets, this.text);
  }
}
