export { checkPacket, numbering, type Block, type PacketModel, type ProvisionPiece, type Section } from "./document";
export { packetDocx } from "./packet-docx";
export { packetHtml } from "./packet-html";
export { packetOf } from "./packet-of";
export type { PacketResults } from "./packet-results";
export { packetPdf } from "./packet-pdf";
export { PACKET_FILES, writePacket } from "./write-packet";
