export { counted, intervalWords, percent, pWords, shareText, significant } from "./number-words";
