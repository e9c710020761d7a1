import { resonantCapacitanceF } from './tuned-circuit.ts';

/** A range of something, least first, in the unit of its place. */
export interface Range {
	readonly least: number;
	readonly most: number;
}

/** What is known of one winding of an IF can whose fixed capacitor is to be replaced. */
export interface IfWinding {
	readonly frequencyHz: number;
	/** Inductance with the core, if it has one, in the middle of its range. */
	readonly inductanceH: number;
	readonly inductanceUncertaintyShare: number;
	/** Tube, wiring and self-capacity of the winding. */
	readonly straysF: number;
	readonly straysUncertaintyF: number;
	/** What tunes it: a trimmer across the fixed capacitor, or a core that moves the inductance by plus or minus a share. */
	readonly adjuster:
		| { readonly kind: 'trimmer'; readonly rangeF: Range }
		| { readonly kind: 'slug'; readonly reachShare: number };
}

/** The fixed capacitor that a winding needs, and whether a part of some tolerance will still peak. */
export interface IfCapacitor {
	/** Puts the peak in the middle of the adjuster's range. */
	readonly wantedF: number;
	/** Any fixed capacitance in here can be peaked when inductance and strays are as given. */
	readonly usableF: Range;
	/** The worst case of the part that was asked about: its tolerance, the inductance and the strays all against it at once. */
	readonly marginF: number;
	readonly canPeak: boolean;
}

/**
 * The fixed capacitor of an IF winding from inductance and strays, and the margin that is left at the end of the adjuster's travel.
 * The limits of inductance and strays are twice their standard uncertainties.
 * @param fittedF the part to judge, or `null` for the wanted value itself
 * @param toleranceShare of the part, such as 0.05
 */
export function ifCapacitor(winding: IfWinding, fittedF: number | null, toleranceShare: number): IfCapacitor {
	const { frequencyHz, inductanceH, straysF, adjuster } = winding;
	const atRest = usable(winding, inductanceH, straysF);
	const middle =
		adjuster.kind === 'trimmer'
			? (atRest.least + atRest.most) / 2
			: resonantCapacitanceF(inductanceH, frequencyHz) - straysF;
	const chosenF = fittedF ?? middle;
	const shares = [-2, 2].map((sigmas) => 1 + sigmas * winding.inductanceUncertaintyShare);
	const strays = [-2, 2].map((sigmas) => straysF + sigmas * winding.straysUncertaintyF);
	const margins = shares.flatMap((share) =>
		strays.flatMap((strayF) => {
			const { least, most } = usable(winding, inductanceH * share, strayF);
			return [chosenF * (1 - toleranceShare) - least, most - chosenF * (1 + toleranceShare)];
		}),
	);
	const marginF = Math.min(...margins);
	return { wantedF: middle, usableF: atRest, marginF, canPeak: marginF >= 0 && chosenF > 0 };
}

function usable({ frequencyHz, adjuster }: IfWinding, inductanceH: number, straysF: number): Range {
	if (adjuster.kind === 'trimmer') {
		const fixedF = resonantCapacitanceF(inductanceH, frequencyHz) - straysF;
		return { least: fixedF - adjuster.rangeF.most, most: fixedF - adjuster.rangeF.least };
	}
	const at = (share: number) => resonantCapacitanceF(inductanceH * share, frequencyHz) - straysF;
	return { least: at(1 + adjuster.reachShare), most: at(1 - adjuster.reachShare) };
}
