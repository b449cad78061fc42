/**
 * Four 32-bit words from a text: 32-bit FNV-1a over its code units, each word with its own start
 * and finished by the MurmurHash3 mixer, so that near-alike names give unlike streams. Never all
 * zero.
 */
export function seedWords(text: string): [number, number, number, number] {
  const words = [0, 0, 0, 0] as [number, number, number, number];
  for (let k = 0; k < 4; k++) {
    let h = 0x811c9dc5 ^ Math.imul(k + 1, 0x9e3779b9);
    for (let i = 0; i < text.length; i++) {
      const unit = text.charCodeAt(i);
      h = Math.imul(h ^ (unit & 0xff), 0x01000193);
      h = Math.imul(h ^ (unit >>> 8), 0x01000193);
    }
    words[k] = mix(h);
  }
  if (words.every((w) => w === 0)) words[0] = 1;
  return words;
}

function mix(word: number): number {
  let h = word;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) | 0;
}
