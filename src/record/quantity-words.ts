/**
 * A frequency as the trade writes it: kilocycles below 3 Mc, megacycles above, with no more digits than given here.
 * @param words `UK` writes kc/s and Mc/s
 * @example frequencyWords(455000, 'US') // => '455 kc'
 */
export function frequencyWords(frequencyHz: number, words: 'US' | 'UK'): string {
	const second = words === 'UK' ? '/s' : '';
	if (frequencyHz < 1000) return `${Number(frequencyHz.toFixed(1))} c${second}`;
	if (frequencyHz < 3e6) return `${Number((frequencyHz / 1e3).toFixed(1)).toLocaleString('en-US')} kc${second}`;
	return `${Number((frequencyHz / 1e6).toFixed(3))} Mc${second}`;
}

/**
 * A number with so many decimals, a true minus before what is below nought when it is written so.
 * @example decimalWords(-2.44, 1) // => '\u22122.4'
 */
export function decimalWords(value: number, decimals: number): string {
	const digits = Math.abs(value).toFixed(decimals);
	return value < 0 && Number(digits) !== 0 ? `\u2212${digits}` : digits;
}

/**
 * A number with its sign; nought has none.
 * @example signedWords(2.44, 1) // => '+2.4'
 */
export function signedWords(value: number, decimals: number): string {
	const words = decimalWords(value, decimals);
	return Number(words) > 0 ? `+${words}` : words;
}

/** A number with three figures and no trailing noughts. */
const three = (value: number): string =>
	Number(value.toPrecision(3)).toLocaleString('en-US', { maximumFractionDigits: 6 });

/**
 * A capacitance as the trade writes it: micro-microfarads below 0.01 mfd.
 * @example capacitanceWords(365e-12) // => '365 mmf'
 */
export function capacitanceWords(capacitanceF: number): string {
	return Math.abs(capacitanceF) < 0.00999e-6 ? `${three(capacitanceF * 1e12)} mmf` : `${three(capacitanceF * 1e6)} mfd`;
}

/**
 * An inductance as the trade writes it: microhenries below 1 mH.
 * @example inductanceWords(240e-6) // => '240 uH'
 */
export function inductanceWords(inductanceH: number): string {
	if (inductanceH >= 0.9995) return `${three(inductanceH)} H`;
	return inductanceH < 0.9995e-3 ? `${three(inductanceH * 1e6)} uH` : `${three(inductanceH * 1e3)} mH`;
}

/**
 * A resistance as the trade writes it.
 * @example resistanceWords(4700) // => '4.7 k'
 */
export function resistanceWords(resistanceOhm: number): string {
	if (resistanceOhm >= 999.5e3) return `${three(resistanceOhm / 1e6)} M`;
	return resistanceOhm >= 999.5 ? `${three(resistanceOhm / 1e3)} k` : `${three(resistanceOhm)} ohms`;
}

/**
 * A voltage of either sign as the trade writes it: microvolts, millivolts or volts.
 * @example voltageWords(25e-6) // => '25 uV'
 * @example voltageWords(-2.4) // => '\u22122.4 V'
 */
export function voltageWords(voltageV: number): string {
	if (voltageV < 0) return `\u2212${voltageWords(-voltageV)}`;
	if (voltageV < 0.9995e-3) return `${three(voltageV * 1e6)} uV`;
	return voltageV < 0.9995 ? `${three(voltageV * 1e3)} mV` : `${three(voltageV)} V`;
}
