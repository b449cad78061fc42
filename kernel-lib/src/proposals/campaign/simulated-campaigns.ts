import { UPPER_SHARE } from "../../comparison";
import type { GroupTest } from "../../comparison";
import {
  createRandom,
  drawLaw,
  normal,
  RandomEffectsModel,
  type Random,
  type SeriesLaw,
} from "../../statistics";
import { NoMaximumError } from "../../statistics/censoring/censored-likelihood";
import { FEWEST_FAILED_SERIES, type RatioModel } from "./ratio-model";

/** What the verdict needs to know of a present test. */
export type PresentTest = Pick<GroupTest, "ratio" | "lowerBound" | "series">;

/** How campaigns are drawn and judged. */
export interface CampaignQuestion {
  readonly fractile: number;
  readonly confidence: number;
  /** Failures of one series. */
  readonly perSeries: number;
  readonly simulations: number;
  readonly seed: number | string;
}

/**
 * One simulated campaign: its law, its stream, the values so far and the verdicts by number of
 * series.
 */
interface Campaign {
  readonly law: SeriesLaw;
  readonly random: Random;
  readonly values: number[];
  readonly right: Map<number, boolean>;
}

/** Number of simulations after which a size is given up or taken, if it is then clear. */
const [FIRST_LOOK, LOOK_EVERY] = [40, 20] as const;
/** Standard errors from the wanted probability that make it clear. */
const CLEAR = 3;

/**
 * Campaigns of further series, added to the present tests and judged as a group is judged: `meets`
 * where the lower bound of the fractile is at least 1, `falls short` where the upper bound is below
 * 1, series effect included.
 *
 * The law of each campaign is drawn from what the present tests say of it: it is fitted and not
 * known. The verdict is right where it is that of the campaign's own law. Campaigns of different
 * size share their first series.
 */
export class SimulatedCampaigns {
  readonly #campaigns: Campaign[] = [];
  readonly #values: readonly number[];
  readonly #target: number;

  constructor(
    readonly model: RatioModel,
    readonly present: readonly PresentTest[],
    readonly question: CampaignQuestion,
  ) {
    const onLogs = model.distribution === "lognormal";
    this.#values = present.map(({ ratio }) => (onLogs ? Math.log(ratio) : ratio));
    this.#target = onLogs ? 0 : 1;
  }

  /** Probability of the right verdict after so many further series. */
  probability(series: number): number {
    const { simulations } = this.question;
    let count = 0;
    for (let s = 0; s < simulations; s += 1) if (this.#right(s, series)) count += 1;
    return count / simulations;
  }

  /**
   * Whether so many further series give the right verdict with the wanted probability; stops once
   * that is clear.
   */
  reaches(series: number, wanted: number): boolean {
    const { simulations } = this.question;
    let count = 0;
    for (let s = 1; s <= simulations; s += 1) {
      if (this.#right(s - 1, series)) count += 1;
      if (s < FIRST_LOOK || s % LOOK_EVERY !== 0) continue;
      const distance = count / s - wanted;
      if (Math.abs(distance) > CLEAR * Math.sqrt((wanted * (1 - wanted)) / s)) return distance > 0;
    }
    return count >= wanted * simulations;
  }

  #right(s: number, series: number): boolean {
    const campaign = (this.#campaigns[s] ??= this.#drawn(s));
    const known = campaign.right.get(series);
    if (known !== undefined) return known;
    const { fractile } = this.question;
    const { law } = campaign;
    const verdict = this.#verdict(this.#further(campaign, series));
    const right =
      verdict ===
      (law.mean + normal().quantile(fractile) * law.sd >= this.#target ? "meets" : "falls short");
    campaign.right.set(series, right);
    return right;
  }

  #drawn(s: number): Campaign {
    const random = createRandom(this.question.seed).fork(s);
    return { law: drawLaw(this.model.laws, random), random, values: [], right: new Map() };
  }

  #further(
    { law: { mean, sd, correlation }, random, values }: Campaign,
    series: number,
  ): readonly number[] {
    const { perSeries } = this.question;
    const [between, within] = [sd * Math.sqrt(correlation), sd * Math.sqrt(1 - correlation)];
    while (values.length < series * perSeries) {
      const shift = between * random.normal();
      for (let i = 0; i < perSeries; i += 1) values.push(mean + shift + within * random.normal());
    }
    return values.slice(0, series * perSeries);
  }

  #verdict(further: readonly number[]): "meets" | "falls short" | "undecided" {
    const { fractile, confidence, perSeries } = this.question;
    const series = [
      ...this.present.map((one) => one.series),
      ...further.map((_, i) => Math.floor(i / perSeries)),
    ];
    const censored = [
      ...this.present.map(({ lowerBound }) => lowerBound),
      ...further.map(() => false),
    ];
    if (new Set(series.filter((_, i) => !censored[i])).size < FEWEST_FAILED_SERIES)
      return "undecided";
    const y = [...this.#values, ...further];
    try {
      const pointOf = new Uint8Array(y.length);
      const model = new RandomEffectsModel({
        y,
        censored,
        series,
        pointOf,
        points: [[1]],
        cells: 1,
      });
      const below = model.probabilityBelow([1], this.#target, fractile);
      return below <= 1 - confidence
        ? "meets"
        : below > 1 - UPPER_SHARE * (1 - confidence)
          ? "falls short"
          : "undecided";
    } catch (error) {
      if (error instanceof NoMaximumError) return "undecided";
      throw error;
    }
  }
}
