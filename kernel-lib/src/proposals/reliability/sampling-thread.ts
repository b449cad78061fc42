import { workerData } from "node:worker_threads";
import { runShare, type SamplingThreadData } from "./sampling-threads";

// The start of a worker thread of `sampleInThreads`: draws its share of the blocks and ends.
runShare(workerData as SamplingThreadData);
