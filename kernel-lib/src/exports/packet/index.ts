export { packetOf } from "./packet-of";
export type { PacketResults } from "./packet-results";
export { PACKET_FILES, writePacket } from "./write-packet";
