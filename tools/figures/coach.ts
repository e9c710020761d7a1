import { disturbanceOf } from '../../src/advice/coach/disturbance.ts';
import { coachAdvice } from '../../src/advice/coach/turn.ts';
import { ledHand } from '../../test/led-hand.ts';
import {
	noTrouble,
	type PeakCurve,
	receiverCurve,
	simulatedCheck,
	simulatedTurn,
	type TurnTrouble,
} from '../../test/simulated-turn.ts';
import { atMost, type Figure, worst } from './figure.ts';

const turns = 2000;
/** Sets whose adjusters are turned; each turn has its own hand, scatter and trouble. */
const sets = 100;

const curves: PeakCurve[] = [];
function curve(seed: number): PeakCurve {
	const at = seed % sets;
	curves[at] ??= receiverCurve(at);
	return curves[at];
}

interface Outcome {
	early: number;
	missed: number;
	readonly toldX: number[];
	readonly toldDb: number[];
}

/** The coach listens to every turn; `early` is told before the peak, `missed` never. */
function listen(trouble: (seed: number) => TurnTrouble, isChecked: boolean): Outcome {
	const outcome: Outcome = { early: 0, missed: 0, toldX: [], toldDb: [] };
	for (let seed = 0; seed < turns; seed++) {
		const troubled = trouble(seed);
		const { offDb, onDb } = simulatedCheck(900_000 + seed, troubled);
		const disturbance = isChecked ? disturbanceOf(offDb, onDb) : null;
		const frames = simulatedTurn(50_000 + seed, troubled, curve(seed));
		const levelsDb: number[] = [];
		const told = frames.find(({ levelDb }) => {
			levelsDb.push(levelDb);
			const turn = {
				levelsDb,
				aim: 'maximum',
				framesAveraged: 5,
				uncertaintyDb: troubled.scatterDb,
				disturbance,
			} as const;
			return ['past', 'wrong way'].includes(coachAdvice(turn).kind);
		});
		if (!told) outcome.missed++;
		else if (told.x < 0) outcome.early++;
		else {
			outcome.toldX.push(told.x);
			outcome.toldDb.push(told.fallDb);
		}
	}
	return outcome;
}

const quantile = (values: readonly number[], share: number): number =>
	[...values].sort((a, b) => a - b)[Math.floor(share * (values.length - 1))] ?? Number.NaN;

function reached({ early, missed, toldX, toldDb }: Outcome): string {
	const at = (values: readonly number[], share: number) => quantile(values, share).toFixed(2);
	return `${early} early, ${missed} missed of ${turns}; told at ${at(toldX, 0.5)} half-widths (median), ${at(toldX, 1)} (worst); fallen ${at(toldDb, 0.5)} dB (median), ${at(toldDb, 1)} dB (worst)`;
}

const how = (what: string): string =>
	`${turns} seeded turns of IF adjusters on ${sets} tampered sets (tm-517) through the simulated receiver, strokes of 0.15 to 0.55 half-widths and pauses, ${what}`;

export const figures: readonly Figure[] = [
	{
		name: 'coach: false alarms and misses in turns through the peak at 20 dB',
		target: 'below 0.1 % each; told within half a half-width and 1 dB',
		by: 'count',
		how: how('scatter of a tone 20 dB over noise in 4 kc'),
		async measure() {
			const outcome = listen(() => noTrouble, false);
			const { early, missed, toldX, toldDb } = outcome;
			return {
				reached: reached(outcome),
				used: worst(
					atMost(early / turns, 0.001),
					atMost(missed / turns, 0.001),
					atMost(Math.max(...toldX), 0.5),
					atMost(Math.max(...toldDb), 1),
				),
			};
		},
	},
	{
		name: 'coach: the same with a level that wanders by 0 to 0.3 dB rms in five seconds, measured by the check',
		target: 'none set',
		by: 'count',
		how: how('wander as a first-order process of five seconds'),
		async measure() {
			return {
				reached: reached(listen((seed) => ({ ...noTrouble, wanderDb: (0.3 * seed) / turns }), true)),
				used: null,
			};
		},
	},
	{
		name: 'coach: the same with a hand that steps the level by up to 0.8 dB, measured by the check of five seconds',
		target: 'below 0.5 % told early',
		by: 'count',
		how: how('step 0 to 0.8 dB while the tool touches'),
		async measure() {
			const outcome = listen((seed) => ({ ...noTrouble, handDb: (0.8 * seed) / turns }), true);
			return { reached: reached(outcome), used: atMost(outcome.early / turns, 0.005) };
		},
	},
	{
		name: 'coach: the same with that step not measured',
		target: 'none set: what the check of five seconds is for',
		by: 'count',
		how: how('step 0 to 0.8 dB while the tool touches'),
		async measure() {
			return {
				reached: reached(listen((seed) => ({ ...noTrouble, handDb: (0.8 * seed) / turns }), false)),
				used: null,
			};
		},
	},
	{
		name: 'coach: the same with a level that flutters by up to 0.8 dB under the hand, measured by the check',
		target: 'below 0.5 % told early',
		by: 'count',
		how: how('flutter 0 to 0.8 dB to and fro, a new value each third of a second'),
		async measure() {
			const outcome = listen((seed) => ({ ...noTrouble, flutterDb: (0.8 * seed) / turns }), true);
			return { reached: reached(outcome), used: atMost(outcome.early / turns, 0.005) };
		},
	},
	{
		name: 'coach: a hand that does nothing but what the coach says, below the best of each set',
		target: 'none set',
		by: 'count',
		how: '30 tampered sets (tm-517, seeds 1 to 30), the whole sheet, three passes, steps of 1/64 turn, level kept weak',
		async measure() {
			const hands = Array.from({ length: 30 }, (_, index) => ledHand(index + 1));
			const left = hands.map(({ leftBelowBestDb }) => leftBelowBestDb);
			const found = hands.map(({ foundBelowBestDb }) => foundBelowBestDb);
			return {
				reached: `${quantile(left, 0.5).toFixed(2)} dB (median), ${quantile(left, 0.9).toFixed(2)} dB (90 %), ${quantile(left, 1).toFixed(2)} dB (worst), from ${quantile(found, 0.5).toFixed(1)} dB (median); longest turn ${Math.max(...hands.map(({ longestTurn }) => longestTurn))} steps, never stopped in ${hands.filter(({ isStopped }) => !isStopped).length}`,
				used: null,
			};
		},
	},
];
