import { existsSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { COMMENTS_FILE, readComments, type BallotComment } from "../exports/packet/comments";
import type { PacketResults } from "../exports/packet/packet-results";
import { RESULTS_FILE } from "../exports/packet/results-file";

/** The comments on file in a project; none without the file. @throws Error for one that does not read */
export function commentsOf(root: string): readonly BallotComment[] {
  const file = join(root, COMMENTS_FILE);
  return existsSync(file) ? readComments(readFileSync(file, "utf8")) : [];
}

/** The results of an earlier packet. @throws Error for a folder without them */
export function earlierOf(
  root: string,
  folder: string | undefined,
): Pick<PacketResults, "earlier"> {
  if (folder === undefined) return {};
  const file = join(resolve(root, folder), RESULTS_FILE);
  if (!existsSync(file))
    throw new Error(
      `${folder} holds no ${RESULTS_FILE}. Expected the folder of a packet written before.`,
    );
  return { earlier: { results: readFileSync(file, "utf8"), folder } };
}
