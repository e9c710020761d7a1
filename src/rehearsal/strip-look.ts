import type { TestId } from '#advice/trouble/tests.ts';
import { deadDb } from '#bench/evidence/of-turns.ts';
import { adjusterValue } from '#core/circuit/adjuster-law.ts';
import { size } from '#core/numeric/complex.ts';
import type { Random } from '#core/numeric/random.ts';
import { type BenchSet, valuesAt } from '#core/receiver/bench-set.ts';
import { ifCurve } from '#core/receiver/if-curve.ts';
import { IfStrip, node } from '#core/receiver/if-strip.ts';
import { gainAtIfDb } from '#core/receiver/sensitivity.ts';
import { workingTubes } from '#core/receiver/weak-gain.ts';

/** Turns from a stop at which an adjuster counts as at its end. */
const endTurns = 0.25;
const scatterDb = 0.3;

/** Places 20 kc either side of the IF where a hand sweep reads. */
const stepsHz = Array.from({ length: 41 }, (_, k) => (k - 20) * 1e3);

/** What strip and adjusters of a set show to a person, against the same set in health. */
export class StripLook {
	readonly #set: BenchSet;
	readonly #healthy: BenchSet;
	readonly #random: Random;

	constructor(set: BenchSet, healthy: BenchSet, random: Random) {
		this.#set = set;
		this.#healthy = healthy;
		this.#random = random;
	}

	/** The adjuster whose best lies at the end of its travel, as alignment left it. */
	adjusterEnd(): string {
		const { design, turns } = this.#set;
		const ends = Object.entries(design.adjusters).flatMap(([id, { travelTurns }]) => {
			const at = turns[id] ?? 0;
			return at < endTurns ? [{ id, isTight: false }] : at > travelTurns - endTurns ? [{ id, isTight: true }] : [];
		});
		const strip = ends.filter(({ id }) => design.windings.some(({ adjuster }) => adjuster === id));
		const [one] = strip;
		if (strip.length > 1 && strip.every(({ isTight }) => isTight === one?.isTight)) return 'several';
		if (one) return one.isTight ? 'if-tight' : 'if-loose';
		const has = (id: string): boolean => ends.some((end) => end.id === id);
		if (has(design.oscillator.padder)) return 'padder';
		if (has(design.oscillator.trimmer)) return 'oscillator';
		return has(design.antenna.adjuster) ? 'antenna' : 'none';
	}

	/** Shape of the IF curve as a hand sweep shows it. */
	curve(): string {
		const { ifHz } = this.#set.design;
		const curve = ifCurve(this.#set);
		const levels = stepsHz.map((stepHz) => curve.levelDb(ifHz + stepHz) + 0.1 * this.#random.gaussian());
		const peaks = levels.flatMap((level, k) => {
			const near = levels.slice(Math.max(0, k - 3), k + 4);
			return level === Math.max(...near) && k > 2 && k < levels.length - 3 && level > -10 ? [{ k, level }] : [];
		});
		const [first, second] = peaks;
		if (first && second) {
			const dipDb = Math.min(first.level, second.level) - Math.min(...levels.slice(first.k, second.k));
			if (dipDb > 0.8) return Math.abs(first.level - second.level) < 1.5 ? 'alike' : 'lopsided';
		}
		if (Math.abs(curve.levelDb(curve.peakHz + 12e3) - curve.levelDb(curve.peakHz - 12e3)) > 6) return 'lopsided';
		const times = curve.width6Hz / ifCurve(this.#healthy).width6Hz;
		return times < 0.85 ? 'narrow' : times > 1.25 ? 'broad' : 'one';
	}

	/** Decibels that the strip gives from the IF tube's grid to the diode, weak signal. */
	#gridGainDb(set: BenchSet): number {
		const values = valuesAt(set, 0);
		const { ifTubeS, diodeS } = workingTubes(values);
		const strip = new IfStrip(values);
		strip.tune(ifCurve(set).peakHz);
		strip.load(ifTubeS, diodeS);
		strip.drive(node.converterPlate, { re: 1, im: 0 });
		const gain = size(strip.voltage(node.diode)) / size(strip.voltage(node.ifGrid));
		return 20 * Math.log10(gain * values.audio.gain);
	}

	/** Decibels from the converter's grid to the diode and on to the voice coil, weak signal. */
	#converterGainDb(set: BenchSet): number {
		const values = valuesAt(set, 0.5);
		const { conversionS, ifTubeS, diodeS } = workingTubes(values);
		const strip = new IfStrip(values);
		strip.tune(ifCurve(set).peakHz);
		strip.load(ifTubeS, diodeS);
		strip.drive(node.converterPlate, { re: conversionS, im: 0 });
		return 20 * Math.log10(size(strip.voltage(node.diode)) * values.audio.gain);
	}

	#weakness(gainDb: (set: BenchSet) => number): string {
		const loss = gainDb(this.#healthy) - gainDb(this.#set) + this.#random.gaussian();
		return loss > 35 ? 'dead' : loss > 4.5 ? 'weak' : 'expected';
	}

	/** Decibels by which the level falls an eighth of a turn each side of where an adjuster stands. */
	#fallDb(set: BenchSet, adjuster: string): number {
		const here = gainAtIfDb(set);
		const at = set.turns[adjuster] ?? 0;
		const travel = set.design.adjusters[adjuster]?.travelTurns ?? 0;
		const falls = [-1 / 8, 1 / 8].map((step) => {
			const to = Math.min(Math.max(at + step, 0), travel);
			return Math.abs(here - gainAtIfDb({ ...set, turns: { ...set.turns, [adjuster]: to } }));
		});
		return Math.max(...falls) + scatterDb * Math.abs(this.#random.gaussian());
	}

	#ifFallsDb(): readonly number[] {
		return this.#set.design.windings.map(({ adjuster }) => this.#fallDb(this.#set, adjuster));
	}

	#blunt(): string {
		const falls = this.#ifFallsDb();
		const usual = this.#set.design.windings.map(({ adjuster }) => this.#fallDb(this.#healthy, adjuster));
		if (falls.some((fall, k) => fall < 0.45 * (usual[k] ?? 0))) return 'if';
		const { adjuster } = this.#set.design.antenna;
		return this.#fallDb(this.#set, adjuster) < 0.5 * this.#fallDb(this.#healthy, adjuster) ? 'antenna' : 'alike';
	}

	#dead(): string {
		const dead = this.#ifFallsDb().filter((fall) => fall < deadDb).length;
		return dead === 0 ? 'all' : dead === 1 ? 'one' : 'before';
	}

	#narrowsWhenWeak(): string {
		const strong = { ...this.#set, faults: [...this.#set.faults, { kind: 'weak IF tube', share: 0.1 } as const] };
		return ifCurve(strong).width6Hz > 1.08 * ifCurve(this.#set).width6Hz ? 'narrow' : 'same';
	}

	#damped(): string {
		if (!['alike', 'broad', 'lopsided'].includes(this.curve())) return 'none';
		// One winding of each can in turn: the humps are of one of them.
		const isBetween = [0, 2].some((winding) => {
			const damped = {
				...this.#set,
				faults: [...this.#set.faults, { kind: 'winding damped', winding, ohm: 15e3 } as const],
			};
			return Math.abs(ifCurve(damped).peakHz - this.#set.design.ifHz) < 3e3;
		});
		return isBetween ? 'between' : 'one';
	}

	/** Whether the trap finds its least within its travel. */
	trapReach(): string {
		const { design } = this.#set;
		const { trap } = valuesAt(this.#set, 0.5);
		const law = design.adjusters[design.trap.adjuster];
		if (!law) return 'absent';
		const now = adjusterValue(law, this.#set.turns[design.trap.adjuster] ?? 0);
		const wantedF = 1 / ((2 * Math.PI * design.ifHz) ** 2 * trap.henry) - (trap.farad - now);
		const least = adjusterValue(law, 0);
		const most = adjusterValue(law, law.travelTurns);
		return wantedF < Math.min(least, most) || wantedF > Math.max(least, most) ? 'out' : 'within';
	}

	/** The outcome of a test that looks at strip or adjusters; `null` for others. */
	outcome(test: TestId): string | null {
		switch (test) {
			case 'adjuster-end':
				return this.adjusterEnd();
			case 'curve':
				return this.curve();
			case 'converter-grid':
				return this.#weakness((set) => this.#converterGainDb(set));
			case 'if-grid':
				return this.#weakness((set) => this.#gridGainDb(set));
			case 'adjuster-dead':
				return this.#dead();
			case 'blunt':
				return this.#blunt();
			case 'curve-level':
				return this.#narrowsWhenWeak();
			case 'damp-one':
				return this.#damped();
			case 'aim':
				return Math.abs(ifCurve(this.#set).peakHz - this.#set.design.ifHz) < 2e3 ? 'on' : 'off';
			case 'if-found':
				return Math.abs(ifCurve(this.#set).peakHz - this.#set.design.ifHz) < 2e3 ? 'same' : 'other';
			default:
				return null;
		}
	}
}
