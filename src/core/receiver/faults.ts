import type { SetValues } from './values.ts';

/** Something in a set that no adjuster puts right. Sizes are parameters, so that a fault can be slight or bad. */
export type Fault =
	| { readonly kind: 'mica shifted'; readonly winding: number; readonly farad: number }
	| { readonly kind: 'winding damped'; readonly winding: number; readonly ohm: number }
	| { readonly kind: 'antenna coil damped'; readonly times: number }
	| { readonly kind: 'weak converter'; readonly share: number }
	| { readonly kind: 'weak IF tube'; readonly share: number }
	| { readonly kind: 'padder off'; readonly farad: number }
	| { readonly kind: 'oscillator coil off'; readonly share: number }
	| { readonly kind: 'AVC leak'; readonly ohm: number }
	| { readonly kind: 'feedback'; readonly farad: number };

/** Faults to be met by name, of a size that a restorer would stop at (sizes chosen). Windings count from the converter's plate. */
export const namedFaults: Readonly<Record<string, Fault>> = {
	'mica-shifted': { kind: 'mica shifted', winding: 1, farad: 12e-12 },
	'winding-damped': { kind: 'winding damped', winding: 2, ohm: 85e3 },
	'antenna-coil-damped': { kind: 'antenna coil damped', times: 4 },
	'weak-converter': { kind: 'weak converter', share: 0.35 },
	'weak-if-tube': { kind: 'weak IF tube', share: 0.4 },
	'padder-low': { kind: 'padder off', farad: -68e-12 },
	'padder-high': { kind: 'padder off', farad: 82e-12 },
	'oscillator-coil-off': { kind: 'oscillator coil off', share: 1.03 },
	'avc-leak': { kind: 'AVC leak', ohm: 470e3 },
	feedback: { kind: 'feedback', farad: 0.016e-12 },
};

function withWinding(values: SetValues, at: number, change: Partial<SetValues['windings'][number]>): SetValues {
	return {
		...values,
		windings: values.windings.map((winding, k) => (k === at ? { ...winding, ...change } : winding)),
	};
}

/** The values of a set with one fault in it. */
function withFault(values: SetValues, fault: Fault): SetValues {
	const { tubes, antenna, oscillator, detector } = values;
	switch (fault.kind) {
		case 'mica shifted':
			return withWinding(values, fault.winding, { farad: (values.windings[fault.winding]?.farad ?? 0) + fault.farad });
		case 'winding damped':
			return withWinding(values, fault.winding, {
				siemens: (values.windings[fault.winding]?.siemens ?? 0) + 1 / fault.ohm,
			});
		case 'antenna coil damped':
			return { ...values, antenna: { ...antenna, secondaryOhm: antenna.secondaryOhm * fault.times } };
		case 'weak converter':
			return {
				...values,
				tubes: { ...tubes, conversionS: tubes.conversionS * fault.share, throughS: tubes.throughS * fault.share },
			};
		case 'weak IF tube':
			return { ...values, tubes: { ...tubes, ifTubeS: tubes.ifTubeS * fault.share } };
		case 'padder off':
			return { ...values, oscillator: { ...oscillator, padderF: oscillator.padderF + fault.farad } };
		case 'oscillator coil off':
			return { ...values, oscillator: { ...oscillator, henry: oscillator.henry * fault.share } };
		case 'AVC leak':
			return { ...values, detector: { ...detector, avcLeakS: detector.avcLeakS + 1 / fault.ohm } };
		case 'feedback':
			return { ...values, tubes: { ...tubes, feedbackF: fault.farad } };
	}
}

/** The values of a set with all its faults. */
export function withFaults(values: SetValues, faults: readonly Fault[]): SetValues {
	return faults.reduce(withFault, values);
}
