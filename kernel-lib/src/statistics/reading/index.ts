export {
  capitalised,
  counted,
  intervalWords,
  listed,
  percent,
  pWords,
  shareText,
  significant,
} from "./number-words";
