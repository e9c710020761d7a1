import { oscillatorHz, type SetValues } from './values.ts';

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
	| { readonly kind: 'feedback'; readonly farad: number }
	| { readonly kind: 'coupling changed'; readonly transformer: 0 | 1; readonly times: number }
	| { readonly kind: 'antenna winding open' }
	| { readonly kind: 'antenna capacitance off'; readonly farad: number }
	| { readonly kind: 'wave trap off'; readonly farad: number }
	| { readonly kind: 'noisy converter'; readonly times: number }
	| { readonly kind: 'weak audio'; readonly share: number }
	| { readonly kind: 'low B-plus'; readonly share: number }
	| { readonly kind: 'oscillator capacitance off'; readonly farad: number }
	| { readonly kind: 'oscillator stops'; readonly belowHz: number }
	| { readonly kind: 'hum'; readonly frequencyHz: number; readonly levelV: number }
	| { readonly kind: 'motorboating'; readonly frequencyHz: number; readonly levelV: number }
	/** Of the generator beside the set: what it gives with its attenuator at nought. */
	| { readonly kind: 'generator leaks'; readonly levelV: number }
	| { readonly kind: 'crackle'; readonly winding: number; readonly farad: number; readonly perS: number };

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
	'mica-low': { kind: 'mica shifted', winding: 2, farad: -45e-12 },
	'mica-high': { kind: 'mica shifted', winding: 0, farad: 40e-12 },
	'mica-open': { kind: 'mica shifted', winding: 3, farad: -58e-12 },
	'trimmer-shorted': { kind: 'winding damped', winding: 1, ohm: 100 },
	'coils-too-near': { kind: 'coupling changed', transformer: 0, times: 4 },
	'antenna-winding-open': { kind: 'antenna winding open' },
	'antenna-strays': { kind: 'antenna capacitance off', farad: 18e-12 },
	'wave-trap-off': { kind: 'wave trap off', farad: -420e-12 },
	'noisy-converter': { kind: 'noisy converter', times: 20 },
	'weak-audio': { kind: 'weak audio', share: 0.3 },
	'low-b-plus': { kind: 'low B-plus', share: 0.6 },
	'oscillator-strays': { kind: 'oscillator capacitance off', farad: 14e-12 },
	'oscillator-stops': { kind: 'oscillator stops', belowHz: 1.35e6 },
	hum: { kind: 'hum', frequencyHz: 120, levelV: 0.15 },
	motorboating: { kind: 'motorboating', frequencyHz: 4, levelV: 1.2 },
	'generator-leaks': { kind: 'generator leaks', levelV: 40e-6 },
	'silver-mica': { kind: 'crackle', winding: 1, farad: 0.8e-12, perS: 25 },
};

/** The fault of a name that came from outside; `null` where there is none. */
export function faultNamed(name: string): Fault | null {
	return (Object.hasOwn(namedFaults, name) ? namedFaults[name] : null) ?? null;
}

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
		case 'coupling changed': {
			const [first, second] = values.mutualH;
			return {
				...values,
				mutualH: fault.transformer === 0 ? [first * fault.times, second] : [first, second * fault.times],
			};
		}
		case 'antenna winding open':
			// What is left between antenna and grid is the capacitance from end to end.
			return { ...values, antenna: { ...antenna, mutualH: 0, primaryOhm: openOhm } };
		case 'antenna capacitance off':
			return { ...values, antenna: { ...antenna, farad: antenna.farad + fault.farad } };
		case 'wave trap off':
			return { ...values, trap: { ...values.trap, farad: values.trap.farad + fault.farad } };
		case 'noisy converter':
			return { ...values, tubes: { ...tubes, converterNoiseOhm: tubes.converterNoiseOhm * fault.times } };
		case 'weak audio':
			return { ...values, audio: { ...values.audio, gain: values.audio.gain * fault.share } };
		case 'low B-plus':
			return withLowSupply(values, fault.share);
		case 'oscillator capacitance off':
			return { ...values, oscillator: { ...oscillator, acrossGangF: oscillator.acrossGangF + fault.farad } };
		case 'oscillator stops':
			return oscillatorHz(values) < fault.belowHz
				? { ...values, tubes: { ...tubes, conversionS: tubes.conversionS * stoppedShare } }
				: values;
		case 'generator leaks':
			return values;
		case 'hum':
			return withDisturbance(values, { hum: { frequencyHz: fault.frequencyHz, levelV: fault.levelV } });
		case 'motorboating':
			return withDisturbance(values, { motorboating: { frequencyHz: fault.frequencyHz, levelV: fault.levelV } });
		case 'crackle':
			return withDisturbance(values, { crackle: { winding: fault.winding, farad: fault.farad, perS: fault.perS } });
	}
}

/** What the generator beside a set gives with its attenuator at nought, volts. */
export function leakV(faults: readonly Fault[]): number {
	return Math.hypot(...faults.map((fault) => (fault.kind === 'generator leaks' ? fault.levelV : 0)));
}

/** Conversion that is left without an oscillator: next to nothing. */
const stoppedShare = 1e-6;
/** An open winding, ohms: far above everything beside it. */
const openOhm = 1e9;

function withDisturbance(values: SetValues, disturbance: SetValues['disturbance']): SetValues {
	return { ...values, disturbance: { ...values.disturbance, ...disturbance } };
}

/** Both controlled tubes, the audio gain and the output's limit fall with the supply: in proportion (chosen; real tubes fall by their own curves). */
function withLowSupply(values: SetValues, share: number): SetValues {
	const { tubes, audio } = values;
	return {
		...values,
		tubes: {
			...tubes,
			conversionS: tubes.conversionS * share,
			throughS: tubes.throughS * share,
			ifTubeS: tubes.ifTubeS * share,
		},
		audio: { ...audio, gain: audio.gain * share, mostV: audio.mostV * share },
	};
}

/** The values of a set with all its faults. */
export function withFaults(values: SetValues, faults: readonly Fault[]): SetValues {
	return faults.reduce(withFault, values);
}
