/** The two schools of the low end, priced: the dial true at both ends, or rocked for greatest output. */
import { antennaLossDb } from '#core/circuit/tracking-curve.ts';
import { type DialModel, type DialState, soundState } from '#core/estimate/dial-model.ts';
import { antennaHz } from './antenna-circuit.ts';

/** One place of a school's curve. */
export interface SchoolPoint {
	readonly dialHz: number;
	readonly errorHz: number;
	/** Lost in the antenna circuit because it is not tuned to what comes in. */
	readonly lossDb: number;
}

/** What a school costs. */
export interface School {
	readonly name: 'true dial' | 'greatest output';
	readonly curve: readonly SchoolPoint[];
	readonly worstErrorHz: number;
	readonly worstLossDb: number;
}

const places = 61;

/**
 * Both schools on a sound oscillator, antenna trimmer peaked at the high mark; `null` where nothing at the low end can be turned.
 * @param q of the antenna circuit
 * @param coilShare how far the antenna coil is off, such as 0.02
 */
export function dialSchools(model: DialModel, q: number, coilShare: number): readonly [School, School] | null {
	const { lowEnd, pointsHz, band } = model.ground;
	if (lowEnd === 'none') return null;
	const tunedHz = antennaHz(model, coilShare);
	const lever = lowEnd === 'slug' ? 'coilShare' : 'padderShare';
	const [lowHz, , highHz] = pointsHz;
	const rocked = setRight(model, lever, [
		[lowHz, tunedHz(lowHz)],
		[highHz, highHz],
	]);
	const school = (name: School['name'], set: DialState): School => {
		const curve = Array.from({ length: places }, (_, k) => {
			const dialHz = band.lowHz + ((band.highHz - band.lowHz) * k) / (places - 1);
			const heardHz = model.heardHz(set, dialHz);
			return { dialHz, errorHz: heardHz - dialHz, lossDb: antennaLossDb(q, tunedHz(dialHz), heardHz) };
		});
		return {
			name,
			curve,
			worstErrorHz: Math.max(...curve.map(({ errorHz }) => Math.abs(errorHz))),
			worstLossDb: Math.max(...curve.map(({ lossDb }) => lossDb)),
		};
	};
	return [school('true dial', soundState), school('greatest output', rocked)];
}

/** Trimmer and low end set so that two marks receive what is wanted there. */
function setRight(
	model: DialModel,
	lever: 'coilShare' | 'padderShare',
	[low, high]: readonly [readonly [number, number], readonly [number, number]],
): DialState {
	let state = soundState;
	for (let round = 0; round < 12; round++) {
		const miss = (at: DialState) => [model.heardHz(at, low[0]) - low[1], model.heardHz(at, high[0]) - high[1]] as const;
		const [a, b] = miss(state);
		const byTrimmer = miss({ ...state, trimmerF: state.trimmerF + 1e-14 });
		const byLever = miss({ ...state, [lever]: state[lever] + 1e-5 });
		const [ta, tb] = [(byTrimmer[0] - a) / 1e-14, (byTrimmer[1] - b) / 1e-14];
		const [la, lb] = [(byLever[0] - a) / 1e-5, (byLever[1] - b) / 1e-5];
		const whole = ta * lb - la * tb;
		state = {
			...state,
			trimmerF: state.trimmerF - (a * lb - la * b) / whole,
			[lever]: state[lever] - (ta * b - a * tb) / whole,
		};
	}
	return state;
}
