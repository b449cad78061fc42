interface Draws {
  integer(n: number): number;
  choice<T>(values: ArrayLike<T>): T;
}

const SPLICES = [
  '"',
  '""',
  "\n",
  "\r",
  "\r\n",
  ",",
  ";",
  "\t",
  "\u0000",
  "\ufeff",
  "NaN",
  "1e999",
  "-",
  "__proto__",
  "constructor",
  "\ud800",
  "é",
  "0x1",
  "1,000",
  " ",
  '"\n"',
  "toString",
];

/**
 * A copy of a file with up to eight random changes: bytes flipped, cut, doubled, or awkward pieces
 * put in.
 */
export function mutated(bytes: Uint8Array, random: Draws): Uint8Array {
  let current = Array.from(bytes);
  for (let changes = 1 + random.integer(8); changes > 0; changes -= 1) {
    const at = random.integer(current.length + 1);
    const kind = random.integer(5);
    if (kind === 0) current[at] = random.integer(256);
    else if (kind === 1) current.splice(at, 1 + random.integer(20));
    else if (kind === 2)
      current = [...current.slice(0, at), ...current.slice(Math.max(0, at - random.integer(40)))];
    else if (kind === 3) current.length = at;
    else current.splice(at, 0, ...new TextEncoder().encode(random.choice(SPLICES)));
  }
  return Uint8Array.from(current, (byte) => byte ?? 0);
}
