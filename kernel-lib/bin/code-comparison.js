#!/usr/bin/env node
"use strict";
const { existsSync } = require("node:fs");
const { join } = require("node:path");
const main = join(__dirname, "..", "dist", "cli", "main.js");
if (!existsSync(main)) {
  console.error(
    "kernel-lib is not built yet. Run `npm ci` (or `npm run build`) in the project folder first.",
  );
  process.exit(2);
}
require(main);
