import tseslint from "typescript-eslint";

export default tseslint.config(
  { ignores: ["**/dist/**", "**/node_modules/**", "tests/bench/**", "**/*.mjs", "**/*.js"] },
  ...tseslint.configs.recommendedTypeChecked,
  {
    languageOptions: {
      parserOptions: {
        project: "./tests/tsconfig.json",
        tsconfigRootDir: new URL("..", import.meta.url).pathname,
      },
    },
    rules: {
      "@typescript-eslint/no-explicit-any": "error",
      "@typescript-eslint/explicit-module-boundary-types": "error",
      "@typescript-eslint/no-unused-vars": [
        "error",
        { argsIgnorePattern: "^_", varsIgnorePattern: "^_" },
      ],
      // A default branch counts as an answer to every case it is not told apart for.
      "@typescript-eslint/switch-exhaustiveness-check": [
        "error",
        { considerDefaultExhaustiveForUnions: true },
      ],
      "@typescript-eslint/restrict-template-expressions": [
        "error",
        { allowNumber: true, allowBoolean: true },
      ],
      "@typescript-eslint/require-await": "off",
      "no-console": "error",
      eqeqeq: "error",
    },
  },
  {
    files: ["tests/**"],
    rules: { "@typescript-eslint/explicit-module-boundary-types": "off", "no-console": "off" },
  },
  { files: ["kernel-lib/src/cli/**"], rules: { "no-console": "off" } },
);
