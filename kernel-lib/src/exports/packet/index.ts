export { packetOf } from "./packet-of";
export type { PacketResults } from "./packet-results";
export { PACKET_FILES } from "./packet-files";
export { writePacket } from "./write-packet";
