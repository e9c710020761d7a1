/** How far each may be off, one standard deviation, before any reading: sizes that restorers meet (chosen). */
export interface DialPrior {
	readonly trimmerF: number;
	readonly padderShare: number;
	readonly coilShare: number;
	readonly pointerM: number;
	readonly ifOffHz: number;
	/** Strays of the assumed circuit. */
	readonly straysF: number;
	readonly platesF: number;
}

/** What is usual: an adjustable part may be anywhere, a fixed one has drifted a little. */
function usualPrior(lowEnd: 'padder' | 'slug' | 'none'): DialPrior {
	return {
		trimmerF: 4e-12,
		padderShare: lowEnd === 'padder' ? 0.07 : 0.03,
		coilShare: lowEnd === 'slug' ? 0.04 : 0.01,
		pointerM: 1e-3,
		ifOffHz: 0.5e3,
		straysF: 3e-12,
		platesF: 0.35e-12,
	};
}

/** A set whose other parts are as the maker left them, one standard deviation (chosen). */
const sound: DialPrior = {
	trimmerF: 0.3e-12,
	padderShare: 0.005,
	coilShare: 0.0015,
	pointerM: 0.15e-3,
	ifOffHz: 0.3e3,
	straysF: 3e-12,
	platesF: 0.15e-12,
};

/** How far a single culprit may be off (chosen). */
const culprit = { trimmerF: 5e-12, padderShare: 0.1, coilShare: 0.02, pointerM: 2e-3, ifOffHz: 10e3 } as const;

/** What may be alone at fault. */
export type Culprit = keyof typeof culprit;

/** What a set may be like before any reading: everything a little off, all sound, or one thing at fault and the rest sound. */
export interface Belief {
	readonly culprit: Culprit | null;
	readonly prior: DialPrior;
	/** How likely (chosen). */
	readonly share: number;
}

/** How likely one thing alone is at fault, for each (chosen). */
const aloneShare = 0.03;

/** All beliefs of a set, their shares adding up to 1. */
export function beliefsOf(lowEnd: 'padder' | 'slug' | 'none'): readonly Belief[] {
	const usual = usualPrior(lowEnd);
	const alone = (Object.keys(culprit) as Culprit[]).map((key) => ({
		culprit: key,
		prior: { ...sound, [key]: Math.max(culprit[key], usual[key]) },
		share: aloneShare,
	}));
	const soundShare = aloneShare;
	return [
		{ culprit: null, prior: usual, share: 1 - soundShare - aloneShare * alone.length },
		{ culprit: null, prior: sound, share: soundShare },
		...alone,
	];
}
