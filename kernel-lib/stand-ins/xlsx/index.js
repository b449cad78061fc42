"use strict";
const refuse = () => {
  throw new Error(
    "Frames do not read or write workbooks here; use kernel-lib's dataset reading and table writing.",
  );
};

module.exports = {
  read: refuse,
  readFile: refuse,
  writeFile: refuse,
  utils: new Proxy({}, { get: () => refuse }),
};
