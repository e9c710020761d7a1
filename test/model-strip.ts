import { levelFunction } from '#core/estimate/response-model.ts';
import { stripModel, stripPlaces } from '#core/estimate/strip-model.ts';
import type { Random } from '#core/numeric/random.ts';
import type { HandSkill, HandStrip } from './guided-hand.ts';
import { ifHz } from './random-strip.ts';

/** What a turn of an adjuster does on a random strip, as a share of the IF: 32 kc a turn at 455 kc. */
const tuningPerTurn = 32e3 / ifHz;

/** A random strip that a simulated hand can read and turn: the model itself, so that only method and readings are judged. */
export class ModelStrip implements HandStrip {
	readonly adjusters = ['3', '2', '1', '0'] as const;
	readonly parameters: number[];
	readonly #level = levelFunction(stripModel(), 400 / ifHz);
	readonly #out = new Float64Array(stripPlaces.size + 1);

	constructor(parameters: readonly number[]) {
		this.parameters = [...parameters];
	}

	curveDb(frequencyHz: number): number {
		this.#level(this.parameters, frequencyHz / ifHz, this.#out);
		return this.#out[0] as number;
	}

	turn(adjuster: string, turns: number): boolean {
		const circuit = Number(adjuster);
		this.parameters[circuit] = (this.parameters[circuit] as number) + turns * tuningPerTurn;
		return true;
	}

	/** How far each circuit is off the IF, hertz, without sign. */
	get offHz(): number[] {
		return this.parameters.slice(0, 4).map((tuning) => Math.abs(tuning * ifHz));
	}

	get asymmetryDb(): number {
		return Math.abs(this.curveDb(ifHz + 5e3) - this.curveDb(ifHz - 5e3));
	}
}

/** Turns one circuit for most at the IF, and stops where the meter cannot tell any more, on either side. */
function peak(strip: ModelStrip, circuit: number, { readingDb }: HandSkill, random: Random): void {
	const at = (tuning: number): number => {
		strip.parameters[circuit] = tuning;
		return strip.curveDb(ifHz);
	};
	// At one frequency the level against one tuning has a single peak: it is closed in by thirds.
	let low = -0.08;
	let high = 0.08;
	while (high - low > 1e-6) {
		const third = (high - low) / 3;
		if (at(low + third) < at(high - third)) low += third;
		else high -= third;
	}
	const best = (low + high) / 2;
	const stopDb = at(best) - Math.abs(readingDb * random.gaussian());
	const side = random.uniform() < 0.5 ? -1 : 1;
	let near = 0;
	let far = 0.05;
	for (let step = 0; step < 40; step++) {
		const middle = (near + far) / 2;
		if (at(best + side * middle) > stopDb) near = middle;
		else far = middle;
	}
	strip.parameters[circuit] = best + side * near;
}

/** The usual ritual: each circuit for most at the IF, last can first, passes times over. */
export function plainPeaking(strip: ModelStrip, skill: HandSkill, random: Random, passes: number): void {
	for (let pass = 0; pass < passes; pass++)
		for (const name of strip.adjusters) peak(strip, Number(name), skill, random);
}

/** One pass with the partner winding damped to a Q of about 10 meanwhile. */
export function loadedPeaking(strip: ModelStrip, skill: HandSkill, random: Random): void {
	for (const name of strip.adjusters) {
		const place = stripPlaces.halfWidth + (Number(name) ^ 1);
		const own = strip.parameters[place] as number;
		strip.parameters[place] = Math.log(1 / 20);
		peak(strip, Number(name), skill, random);
		strip.parameters[place] = own;
	}
}
