const text = { type: "string" } as const;
const texts = { type: "array", items: text } as const;
const hash = { type: "string", pattern: "^[0-9a-f]{64}$" } as const;
const count = { type: "integer", minimum: 0 } as const;

const cell = {
  type: "object",
  additionalProperties: false,
  required: [
    "number",
    "id",
    "verdict",
    "explanation",
    "tolerance",
    "largest_relative_difference",
    "opinion",
    "remark",
  ],
  properties: {
    number: { type: "integer", minimum: 1 },
    id: text,
    verdict: {
      enum: ["same", "within_tolerance", "changed", "failed", "not_recorded", "excused"],
    },
    explanation: text,
    tolerance: { type: "number", minimum: 0 },
    largest_relative_difference: { type: ["number", "null"], minimum: 0 },
    opinion: { enum: ["", "agree", "question"] },
    remark: text,
  },
} as const;

const notebook = {
  type: "object",
  additionalProperties: false,
  required: ["name", "sha256", "reproduced", "code_cells", "reasons", "notes", "cells"],
  properties: {
    name: text,
    sha256: hash,
    reproduced: { type: "boolean" },
    code_cells: count,
    reasons: texts,
    notes: texts,
    cells: { type: "array", items: cell },
  },
} as const;

const environment = {
  type: "object",
  additionalProperties: false,
  required: ["node", "tslab", "library", "lock_file", "inputs"],
  properties: {
    node: text,
    tslab: text,
    library: hash,
    lock_file: { type: "string", pattern: "^([0-9a-f]{64})?$" },
    inputs: { type: "object", additionalProperties: hash },
  },
} as const;

/** JSON Schema (2020-12) of a signed review record. */
export const REVIEW_RECORD_SCHEMA = {
  $schema: "https://json-schema.org/draft/2020-12/schema",
  title: "Signed review of notebooks",
  type: "object",
  additionalProperties: false,
  required: [
    "schema",
    "reviewer",
    "signed",
    "reproduced",
    "excused_accepted",
    "environment",
    "notebooks",
  ],
  properties: {
    schema: { const: "code-comparison-review/3" },
    reviewer: { type: "string", minLength: 1 },
    signed: { type: "string", pattern: "^\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}:\\d{2}(\\.\\d+)?Z$" },
    reproduced: { type: "boolean" },
    excused_accepted: { type: "boolean" },
    environment,
    notebooks: { type: "array", items: notebook },
  },
} as const;
