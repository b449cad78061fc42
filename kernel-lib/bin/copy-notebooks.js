"use strict";
// Before packing: the notebooks as templates, so that the package can lay out a study by itself.
const { mkdirSync, writeFileSync } = require("node:fs");
const { join } = require("node:path");
const { notebookTemplates } = require("../dist/cli/study/notebook-templates.js");

const [folder = "notebooks"] = process.argv.slice(2);
const templates = notebookTemplates();
mkdirSync(folder, { recursive: true });
for (const [name, text] of Object.entries(templates)) writeFileSync(join(folder, name), text);
