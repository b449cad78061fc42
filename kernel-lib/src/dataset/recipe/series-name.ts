/** A name for the series of that key, the same for the same key. */
export function seriesName(series: Map<string, string>, studyId: string, key: string): string {
  const whole = `${studyId} ${key}`;
  const known = series.get(whole);
  if (known !== undefined) return known;
  let count = 1;
  for (const other of series.keys()) if (other.startsWith(`${studyId} `)) count += 1;
  const name = `${studyId}-s${String(count).padStart(2, "0")}`;
  series.set(whole, name);
  return name;
}
