export { counted, intervalWords, percent, pWords, significant } from "./number-words";
