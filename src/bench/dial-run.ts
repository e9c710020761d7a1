import { standardTone } from '#core/receiver/signal.ts';
import { frequencyWords } from '#record/quantity-words.ts';
import type { Bench } from './bench.ts';
import { dialPass } from './dial-work.ts';
import { tuneForMost } from './input-search.ts';
import { type Left, SweepHand, seenThrough } from './sweep-hand.ts';
import type { WorkGround } from './work-ground.ts';

/** A check of a dial mark by mark. */
export interface DialPlan {
	readonly band: string;
	/** Ascending. */
	readonly marksHz: readonly number[];
	/** Output at which each mark is read, volts: far enough below overload. */
	readonly outputV: number;
}

/** How many marks were read. */
export interface DialRead {
	readonly kind: 'dial read';
	readonly marks: number;
}

const firstInputV = 30e-6;
/** How far off its mark a dial may be (chosen). */
const reachHz = 120e3;

async function read(ground: WorkGround, bench: Bench, { band, marksHz, outputV }: DialPlan): Promise<DialRead> {
	const sweep = new SweepHand(ground, 'dial', firstInputV);
	const wantedDb = 20 * Math.log10(outputV);
	let marks = 0;
	/** Neighbouring marks are off by much the same. */
	let offHz = 0;
	await sweep.begin(marksHz[0] ?? 1e6, standardTone.toneHz, standardTone.depth);
	for (const [at, dialHz] of marksHz.entries()) {
		if (await sweep.whileOff(() => ground.hand.setPointer(dialHz))) {
			const heardHz = await tuneForMost(sweep, dialHz + offHz, reachHz, wantedDb);
			if (heardHz !== null) {
				offHz = heardHz.value - dialHz;
				await bench.keepDial({
					kind: 'dial reading',
					band,
					pass: dialPass(bench.state.dial, band),
					dialHz,
					heardHz: heardHz.value,
					heardUncertaintyHz: heardHz.uncertainty ?? 0,
					source: 'driven generator',
					words: frequencyWords(heardHz.value, 'US'),
				});
				marks++;
			}
		}
		ground.progress(at + 1, marksHz.length);
	}
	return { kind: 'dial read', marks };
}

/** Reads a dial by itself: the hand sets the pointer, generator and meter find what comes in there. A mark at which nothing is heard is left out. */
export function readDial(ground: WorkGround, bench: Bench, plan: DialPlan): Promise<DialRead | Left> {
	return seenThrough(ground, () => read(ground, bench, plan));
}
