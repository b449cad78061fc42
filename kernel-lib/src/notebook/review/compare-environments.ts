import type { RecordedEnvironment } from "../run";

/** What has changed between the recording and now, in plain words; empty when nothing has. */
export function compareEnvironments(
  recorded: RecordedEnvironment | undefined,
  now: RecordedEnvironment,
): string[] {
  if (!recorded) return ["the notebook does not say what its outputs were recorded with"];
  const reasons: string[] = [];
  if (recorded.node !== now.node) reasons.push(`Node was ${recorded.node} and is ${now.node}`);
  if (recorded.tslab !== now.tslab) reasons.push(`tslab was ${recorded.tslab} and is ${now.tslab}`);
  if (recorded.library !== now.library) reasons.push("the library build is another one");
  if (recorded.lock_file !== now.lock_file)
    reasons.push("package-lock.json is another one: dependencies may differ");
  const before = recorded.inputs ?? {};
  for (const file of new Set([...Object.keys(before), ...Object.keys(now.inputs)])) {
    if (!(file in now.inputs)) reasons.push(`data file ${file} is gone`);
    else if (!(file in before)) reasons.push(`data file ${file} is new`);
    else if (before[file] !== now.inputs[file]) reasons.push(`data file ${file} has changed`);
  }
  return reasons;
}
