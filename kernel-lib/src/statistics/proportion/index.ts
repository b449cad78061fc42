export { binomialInterval, type BinomialInput, type BinomialInterval } from "./binomial-interval";
