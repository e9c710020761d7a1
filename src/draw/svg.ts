const entities: Readonly<Record<string, string>> = {
	'&': '&amp;',
	'<': '&lt;',
	'>': '&gt;',
	'"': '&quot;',
	"'": '&#39;',
};

/**
 * Text that stays text inside SVG or HTML.
 */
export function escaped(text: string): string {
	return text.replace(/[&<>"']/g, (letter) => entities[letter] ?? letter);
}

/** A number for a drawing: tenths are finer than a line is wide. */
export function place(valuePx: number): string {
	return String(Math.round(valuePx * 10) / 10);
}
