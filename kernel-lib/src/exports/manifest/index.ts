export { fileHash, filesBelow, verifyManifest, writeManifest, type Manifest, type ManifestFile } from "./write-manifest";
