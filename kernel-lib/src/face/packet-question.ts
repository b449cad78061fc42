/** What a packet asks of every group. */
export const QUESTION = { fractile: 0.05, confidence: 0.9 } as const;

/** Level of the capacities that a packet judges. */
export const LEVEL = "nominal";
