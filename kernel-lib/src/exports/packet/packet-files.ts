/** Names of the packet's own files. */
export const PACKET_FILES = {
  html: "packet.html",
  docx: "packet.docx",
  pdf: "packet.pdf",
  zip: "packet.zip",
} as const;
