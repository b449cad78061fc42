/**
 * A number with its derivatives by all parameters at once: exact slopes of a model from its value
 * alone, without a second formula and without differences.
 *
 * @example Dual.parameter(0.5, 0, 1).times(2).exp() // value 2.718..., slope 5.436...
 */
export class Dual {
  constructor(
    readonly value: number,
    readonly slopes: Float64Array,
  ) {}

  /** Parameter number `index` of `count`. */
  static parameter(value: number, index: number, count: number): Dual {
    const slopes = new Float64Array(count);
    slopes[index] = 1;
    return new Dual(value, slopes);
  }

  plus(other: Dual | number): Dual {
    if (typeof other === "number") return new Dual(this.value + other, this.slopes);
    return new Dual(
      this.value + other.value,
      this.slopes.map((s, i) => s + other.slopes[i]!),
    );
  }

  minus(other: Dual | number): Dual {
    if (typeof other === "number") return new Dual(this.value - other, this.slopes);
    return new Dual(
      this.value - other.value,
      this.slopes.map((s, i) => s - other.slopes[i]!),
    );
  }

  times(other: Dual | number): Dual {
    if (typeof other === "number") return this.chain(this.value * other, other);
    return new Dual(
      this.value * other.value,
      this.slopes.map((s, i) => s * other.value + this.value * other.slopes[i]!),
    );
  }

  over(other: Dual | number): Dual {
    if (typeof other === "number") return this.chain(this.value / other, 1 / other);
    const value = this.value / other.value;
    return new Dual(
      value,
      this.slopes.map((s, i) => (s - value * other.slopes[i]!) / other.value),
    );
  }

  negated(): Dual {
    return this.chain(-this.value, -1);
  }
  exp(): Dual {
    return this.chain(Math.exp(this.value), Math.exp(this.value));
  }
  log(): Dual {
    return this.chain(Math.log(this.value), 1 / this.value);
  }
  sqrt(): Dual {
    return this.chain(Math.sqrt(this.value), 0.5 / Math.sqrt(this.value));
  }
  sin(): Dual {
    return this.chain(Math.sin(this.value), Math.cos(this.value));
  }
  cos(): Dual {
    return this.chain(Math.cos(this.value), -Math.sin(this.value));
  }
  atan(): Dual {
    return this.chain(Math.atan(this.value), 1 / (1 + this.value * this.value));
  }
  tanh(): Dual {
    return this.chain(Math.tanh(this.value), 1 - Math.tanh(this.value) ** 2);
  }

  /** This number to a power; the base must be above 0 when the exponent is itself a parameter. */
  power(exponent: Dual | number): Dual {
    if (typeof exponent === "number")
      return exponent === 0
        ? this.chain(1, 0)
        : this.chain(this.value ** exponent, exponent * this.value ** (exponent - 1));
    return exponent.times(this.log()).exp();
  }

  private chain(value: number, slope: number): Dual {
    return new Dual(
      value,
      this.slopes.map((s) => s * slope),
    );
  }
}

/** A fixed number to the power of a parameter, base > 0 (base 0 gives 0). */
export function powerOf(base: number, exponent: Dual): Dual {
  if (base === 0) return new Dual(0, new Float64Array(exponent.slopes.length));
  return exponent.times(Math.log(base)).exp();
}
