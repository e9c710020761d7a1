import type { GeneratorBeside } from './virtual-generator.ts';

/** Where the attenuator stands at first: weak enough that AVC and the output tube do not flatten the peak (chosen). */
const firstLevelV = 1e-3;

/** A part clipped across an IF winding, the winding named by its adjuster. */
export type Clip =
	| { readonly adjuster: string; readonly ohm: number }
	| { readonly adjuster: string; readonly farad: number };

/** How an adjuster was pressed on against its stop. */
interface Strain {
	readonly times: number;
	/** All of it together; clockwise and counter-clockwise count alike. */
	readonly turns: number;
	readonly way: 'tight' | 'loose';
}

/** What hands have done to a virtual set, to be kept over a reload. */
export interface VirtualState {
	readonly turns: Readonly<Record<string, number>>;
	readonly levelV: number;
	readonly volume: number;
	readonly clips: readonly Clip[];
	/** Adjusters that were turned on past the first touch of their stop. */
	readonly strains: Readonly<Record<string, Strain>>;
	readonly generator: GeneratorBeside;
	/** The generator's lead is clipped to the set. */
	readonly isLeadOn: boolean;
	/** The station that a wire beside the antenna lead brings in and that the set is tuned to; `null` with the wire off. */
	readonly stationHz: number | null;
}

/** A set that no hand has touched, the attenuator at a level. */
export function untouched(levelV: number = firstLevelV): VirtualState {
	return {
		turns: {},
		levelV,
		volume: 1,
		clips: [],
		strains: {},
		generator: { kind: 'good' },
		isLeadOn: true,
		stationHz: null,
	};
}
