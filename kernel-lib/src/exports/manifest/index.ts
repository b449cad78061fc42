export {
  fileHash,
  filesBelow,
  ManifestProblem,
  readManifest,
  verifyManifest,
  writeManifest,
  type Manifest,
  type ManifestFile,
} from "./write-manifest";
