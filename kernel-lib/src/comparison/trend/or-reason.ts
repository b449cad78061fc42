import { RegressionError } from "../../regression";

/** A model, or the reason why the data give none. */
export function orReason<M>(make: () => M): {
  readonly model: M | null;
  readonly reason: string;
} {
  try {
    return { model: make(), reason: "" };
  } catch (error) {
    if (error instanceof RegressionError) return { model: null, reason: error.message };
    throw error;
  }
}
