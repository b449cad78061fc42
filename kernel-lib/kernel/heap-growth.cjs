"use strict";
// V8 lets the heap grow to up to four times what lived after its last full collection: with the
// compiler's 60 MB that is most of what a notebook ever allocates, and garbage of every type check
// and every figure is kept. A collection takes a tenth of a second, so let it come after so much
// growth, whatever lives; by the share alone it would come too often while little lives.
const v8 = require("node:v8");

const GROWTH_MB = 40;
/** What lives once the compiler is loaded: before that, nothing need be collected. */
const COMPILER_MB = 55;
/** A notebook that really holds much pays no more than its share. */
const LEAST_PERCENT = 25;

/** Says by how much the heap may grow after the next full collection. */
function holdHeapGrowth() {
  const usedMB = Math.max(COMPILER_MB, v8.getHeapStatistics().used_heap_size / 1e6);
  v8.setFlagsFromString(
    `--heap-growing-percent=${Math.max(LEAST_PERCENT, Math.round((100 * GROWTH_MB) / usedMB))}`,
  );
}

module.exports = { holdHeapGrowth };
