import type { BandLimits } from '#core/circuit/tracking-curve.ts';
import { parseQuantity } from '#record/quantity.ts';

/** Frequencies in a list of stations as a person types it, those of one band when it is given; what is no frequency is passed over. A comma between figures parts thousands. */
export function stationsIn(words: string, band?: BandLimits): readonly number[] {
	return words
		.split(/[;\n]+|,\s+|(?<=[a-z]),/i)
		.map((one) => parseQuantity('frequency', one))
		.flatMap((read) => (read.ok ? [read.value] : []))
		.filter((hz) => band === undefined || (hz >= band.lowHz && hz <= band.highHz));
}
