export {
  fileHash,
  filesBelow,
  ManifestProblem,
  verifyManifest,
  writeManifest,
  type Manifest,
  type ManifestFile,
} from "./write-manifest";
