import { nearestPreferred, type Series } from './preferred-values.ts';

/** Resistors of an attenuator between two equal impedances. */
export interface Attenuator {
	readonly shape: 'T' | 'pi';
	/** T: each of the two in series; pi: the one in series. */
	readonly seriesOhm: number;
	/** T: the one across; pi: each of the two across. */
	readonly shuntOhm: number;
}

/** What an attenuator of given resistors does between two equal impedances. */
export interface AttenuatorFigures {
	readonly lossDb: number;
	readonly inputOhm: number;
}

/**
 * Symmetrical attenuator for a loss between two equal impedances: T with Z (K-1)/(K+1) and 2 Z K/(K^2-1), pi with the reciprocals, K the ratio of voltages. Textbook forms, from memory; checked by solving the ladder.
 * @example attenuator('T', 50, 20).seriesOhm // => ~40.909
 */
export function attenuator(shape: 'T' | 'pi', impedanceOhm: number, lossDb: number): Attenuator {
	if (!(impedanceOhm > 0 && lossDb > 0 && lossDb <= 120)) {
		throw new Error(`invalid attenuator: ${lossDb} dB in ${impedanceOhm} ohms, expected above 0 and up to 120 dB`);
	}
	const ratio = 10 ** (lossDb / 20);
	const small = (impedanceOhm * (ratio - 1)) / (ratio + 1);
	const cross = (2 * impedanceOhm * ratio) / (ratio * ratio - 1);
	return shape === 'T'
		? { shape, seriesOhm: small, shuntOhm: cross }
		: { shape, seriesOhm: impedanceOhm ** 2 / cross, shuntOhm: impedanceOhm ** 2 / small };
}

/** Loss and input resistance that resistors give between two equal impedances, by going back through the ladder from the load. */
export function attenuatorFigures({ shape, seriesOhm, shuntOhm }: Attenuator, impedanceOhm: number): AttenuatorFigures {
	const arms: readonly (readonly ['series' | 'shunt', number])[] =
		shape === 'T'
			? [
					['series', seriesOhm],
					['shunt', shuntOhm],
					['series', seriesOhm],
				]
			: [
					['shunt', shuntOhm],
					['series', seriesOhm],
					['shunt', shuntOhm],
				];
	// One volt at the load; volts and amperes walked back to the input.
	let volts = 1;
	let amperes = 1 / impedanceOhm;
	for (const [joint, ohms] of [...arms].reverse()) {
		if (joint === 'series') volts += amperes * ohms;
		else amperes += volts / ohms;
	}
	// Against the load joined to the source directly, where one volt at the load takes two of the source.
	return { lossDb: 20 * Math.log10((volts + amperes * impedanceOhm) / 2), inputOhm: volts / amperes };
}

/** An attenuator built of preferred values, with what it really does. */
export interface BuiltAttenuator extends Attenuator, AttenuatorFigures {}

/**
 * The attenuator nearest to a loss that preferred values give between two equal impedances, each resistor the one nearest to the exact one.
 * @example builtAttenuator('pi', 50, 20, 'E24').lossDb // => ~19.68
 */
export function builtAttenuator(
	shape: 'T' | 'pi',
	impedanceOhm: number,
	lossDb: number,
	series: Series,
): BuiltAttenuator {
	const exact = attenuator(shape, impedanceOhm, lossDb);
	const built = {
		shape,
		seriesOhm: nearestPreferred(series, exact.seriesOhm),
		shuntOhm: nearestPreferred(series, exact.shuntOhm),
	};
	return { ...built, ...attenuatorFigures(built, impedanceOhm) };
}
