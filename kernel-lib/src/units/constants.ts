/** Millimetres in an inch; exact by the international yard and pound agreement of 1959. */
export const MM_PER_INCH = 25.4;

/** Standard acceleration of free fall in m/s2; exact (3rd CGPM, 1901; ISO 80000-3). */
export const STANDARD_GRAVITY = 9.80665;

/** Newtons in a pound-force: 0.45359237 kg x 9.80665 m/s2 = 4.4482216152605 N; exact. */
export const N_PER_LBF = 4.4482216152605;

/** Square millimetres in a square inch: 25.4^2 = 645.16; exact. */
export const MM2_PER_IN2 = 645.16;

/** Megapascals in a pound-force per square inch: N_PER_LBF / MM2_PER_IN2 = 0.00689475729... */
export const MPA_PER_PSI = N_PER_LBF / MM2_PER_IN2;
