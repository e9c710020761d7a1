/** Who is at fault for a dial's errors: each suspect with its size, and what would remain if only that were put right. */
import type { DialFit } from '#core/estimate/dial-fit.ts';
import { type DialModel, type DialState, hasPadder, soundState } from '#core/estimate/dial-model.ts';
import type { Estimate } from '#core/numeric/estimate.ts';

/** One suspect. */
export interface DialCause {
	readonly cause: 'trimmer' | 'padder' | 'slug' | 'coil' | 'pointer' | 'IF' | 'plates';
	/** In `unit`; plus is more capacitance or inductance, toward the high end, a higher IF. */
	readonly size: Estimate;
	readonly unit: 'pF' | '%' | 'mm' | 'kHz';
	readonly worstIfOnlyThisIsCuredHz: number;
	/** Plates only: the mark about which they are felt most. */
	readonly aboutDialHz: number | null;
}

type Single = keyof Omit<DialState, 'platesF' | 'straysF'>;

function scaled({ state, uncertainty }: DialFit, key: Single, factor: number): Estimate {
	return { value: state[key] * factor, uncertainty: uncertainty[key] * factor };
}

/** All suspects of a dial, the one whose cure helps most first. */
export function dialCauses(model: DialModel, fit: DialFit): readonly DialCause[] {
	const { lowEnd } = model.ground;
	const cured = (change: Partial<DialState>): number => model.worstHz({ ...fit.state, ...change });
	const single = (cause: DialCause['cause'], key: Single, factor: number, unit: DialCause['unit']): DialCause => ({
		cause,
		size: scaled(fit, key, factor),
		unit,
		worstIfOnlyThisIsCuredHz: cured({ [key]: 0 }),
		aboutDialHz: null,
	});
	const causes = [
		single('trimmer', 'trimmerF', 1e12, 'pF'),
		...(hasPadder(model.ground) ? [single('padder', 'padderShare', 100, '%')] : []),
		single(lowEnd === 'slug' ? 'slug' : 'coil', 'coilShare', 100, '%'),
		single('pointer', 'pointerM', 1e3, 'mm'),
		single('IF', 'ifOffHz', 1e-3, 'kHz'),
		plates(model, fit, cured({ platesF: soundState.platesF })),
	];
	return causes.sort((one, other) => one.worstIfOnlyThisIsCuredHz - other.worstIfOnlyThisIsCuredHz);
}

/** Bent plates, by what they do where they are felt most against what is not known of it; never farads by the slot, which no dial can tell. */
function plates(model: DialModel, fit: DialFit, worstIfOnlyThisIsCuredHz: number): DialCause {
	const sure = ({ value, uncertainty }: Estimate): number => Math.abs(value) / (uncertainty || 1);
	const [most] = model
		.judgedMarksHz()
		.map((dialHz) => ({ dialHz, effect: fit.platesAt(dialHz) }))
		.sort((one, other) => sure(other.effect) - sure(one.effect));
	const { value = 0, uncertainty = null } = most?.effect ?? {};
	return {
		cause: 'plates',
		size: { value: value / 1e3, uncertainty: uncertainty === null ? null : uncertainty / 1e3 },
		unit: 'kHz',
		worstIfOnlyThisIsCuredHz,
		aboutDialHz: most?.dialHz ?? null,
	};
}
