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

const americanToBritish: readonly (readonly [RegExp, string])[] = [
	[/\bantenna\b/g, 'aerial'],
	[/\bAntenna\b/g, 'Aerial'],
	[/\btube\b/g, 'valve'],
	[/\btubes\b/g, 'valves'],
	[/\bB-plus\b/g, 'HT'],
	[/\bconverter\b/g, 'frequency changer'],
	[/\bground lead\b/g, 'earth lead'],
	[/\bgrounded\b/g, 'earthed'],
	[/\bplate\b/g, 'anode'],
	[/\bpointer\b/g, 'cursor'],
	[/\bvoice coil\b/g, 'speech coil'],
];

/**
 * A sentence in American words, said in British ones where the trade differs.
 * @example britishWords('Tune to the antenna.') // => 'Tune to the aerial.'
 */
export function britishWords(sentence: string): string {
	return americanToBritish.reduce((words, [american, british]) => words.replace(american, british), sentence);
}
