import type { Column } from "../schema/column";
import { diagnostic, type Diagnostic } from "../diagnostics";
import type { ReadingOptions } from "./table-reading";
import { STUDY_COLUMNS } from "../schema/study";
import { TEST_COLUMNS } from "../schema/test-columns";

/** One field of a Table Schema (datapackage.org), as far as the project writes and reads it. */
export interface TableField {
  readonly name: string;
  readonly type: "string" | "number" | "integer";
  readonly description?: string;
  readonly unit?: string;
  readonly constraints?: Readonly<Record<string, unknown>>;
}

/** One file of a data package. */
export interface PackageResource {
  readonly name: string;
  readonly path: string;
  readonly hash?: string;
  /**
   * How the file is laid out, as far as it does not speak for itself (Table Dialect,
   * datapackage.org).
   */
  readonly dialect?: {
    readonly headerRows?: ReadonlyArray<number>;
    readonly delimiter?: string;
    readonly sheetName?: string;
  };
  readonly schema: {
    readonly fields: ReadonlyArray<TableField>;
    readonly primaryKey?: string;
    readonly missingValues?: ReadonlyArray<string>;
  };
}

/** A Data Package descriptor: which files there are, and what their columns mean. */
export interface DataPackage {
  readonly name: string;
  readonly title: string;
  readonly description: string;
  readonly licenses?: ReadonlyArray<{
    readonly name?: string;
    readonly title?: string;
    readonly path?: string;
  }>;
  readonly resources: ReadonlyArray<PackageResource>;
}

/** A field of the descriptor from a column of our schema. */
export function tableField(column: Column): TableField {
  const constraints: Record<string, unknown> = {};
  if (column.required) constraints["required"] = true;
  if (column.categories !== undefined && column.open !== true)
    constraints["enum"] = column.categories;
  if (column.minimum !== undefined) constraints["minimum"] = column.minimum;
  if (column.maximum !== undefined) constraints["maximum"] = column.maximum;
  if (column.above !== undefined) constraints["exclusiveMinimum"] = column.above;
  return {
    name: column.name,
    type: column.kind === "number" || column.kind === "integer" ? column.kind : "string",
    description: column.meaning,
    ...(column.unit === null ? {} : { unit: column.unit }),
    ...(Object.keys(constraints).length === 0 ? {} : { constraints }),
  };
}

/** What a descriptor says beyond the schema. */
export interface PackageDescription {
  readonly name: string;
  readonly title: string;
  readonly description: string;
  readonly licence?: string;
  /** Extra columns of tests.csv with their meaning. */
  readonly extraFields?: ReadonlyArray<TableField>;
  /** Columns written to tests.csv; all of the schema when left out. */
  readonly columns?: ReadonlyArray<string>;
}

/** The descriptor of a data set with `tests.csv` and `studies.csv`. */
export function describePackage(description: PackageDescription): DataPackage {
  const { name, title, columns, extraFields = [] } = description;
  const kept =
    columns === undefined
      ? TEST_COLUMNS
      : TEST_COLUMNS.filter((column) => columns.includes(column.name));
  return {
    name,
    title,
    description: description.description,
    ...(description.licence === undefined ? {} : { licenses: [{ title: description.licence }] }),
    resources: [
      {
        name: "tests",
        path: "tests.csv",
        schema: {
          fields: [...kept.map(tableField), ...extraFields],
          primaryKey: "test_id",
          missingValues: [""],
        },
      },
      {
        name: "studies",
        path: "studies.csv",
        schema: {
          fields: STUDY_COLUMNS.map(tableField),
          primaryKey: "study_id",
          missingValues: [""],
        },
      },
    ],
  };
}

/**
 * Reads `datapackage.json`. A descriptor that cannot be used is a finding, not a failure: the tests
 * can be read without it.
 */
export function parseDataPackage(
  text: string,
  file: string,
): { readonly descriptor: DataPackage | null; readonly diagnostics: ReadonlyArray<Diagnostic> } {
  const refuse = (what: string): { descriptor: null; diagnostics: Diagnostic[] } => ({
    descriptor: null,
    diagnostics: [
      diagnostic(
        "warning",
        "bad-descriptor",
        `${file} ${what}, expected a Data Package descriptor with resources; it is left aside`,
        { file, expected: "a Data Package descriptor" },
      ),
    ],
  });
  let parsed: unknown;
  try {
    parsed = JSON.parse(text.replace(/^\ufeff/, ""));
  } catch {
    return refuse("is not valid JSON");
  }
  return isDataPackage(parsed)
    ? { descriptor: parsed, diagnostics: [] }
    : refuse("has no list of resources with names, paths and fields");
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function isDataPackage(value: unknown): value is DataPackage {
  return (
    isRecord(value) && Array.isArray(value["resources"]) && value["resources"].every(isResource)
  );
}

function isResource(value: unknown): boolean {
  if (!isRecord(value) || typeof value["name"] !== "string" || typeof value["path"] !== "string")
    return false;
  const schema = value["schema"];
  return (
    isRecord(schema) &&
    Array.isArray(schema["fields"]) &&
    schema["fields"].every((field) => isRecord(field) && typeof field["name"] === "string")
  );
}

/** Names of the columns of `tests.csv` that a descriptor announces. */
export function declaredColumns(descriptor: DataPackage | null): ReadonlySet<string> {
  const tests = descriptor?.resources.find(({ name }) => name === "tests");
  return new Set(tests?.schema.fields.map(({ name }) => name) ?? []);
}

/**
 * What a descriptor says about the layout of a file: the row of the names, the separator, the
 * sheet. Entries that cannot be used are left aside.
 */
export function declaredLayout(
  descriptor: DataPackage | null,
  path: string,
): Pick<ReadingOptions, "headerRow" | "delimiter" | "sheet"> {
  const dialect: unknown = descriptor?.resources.find(
    (resource) => resource.path === path,
  )?.dialect;
  if (!isRecord(dialect)) return {};
  const [rows, delimiter, sheet] = [
    dialect["headerRows"],
    dialect["delimiter"],
    dialect["sheetName"],
  ];
  const row: unknown = Array.isArray(rows) ? rows[0] : undefined;
  return {
    ...(typeof row === "number" && Number.isInteger(row) && row >= 1 && row <= 1000
      ? { headerRow: row }
      : {}),
    ...(delimiter === "," || delimiter === ";" || delimiter === "\t" ? { delimiter } : {}),
    ...(typeof sheet === "string" ? { sheet } : {}),
  };
}
