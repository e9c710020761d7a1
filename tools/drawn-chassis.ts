import sharp from 'sharp';

/** A chassis seen from above, drawn in the place of a photograph: gang, two IF cans, tubes, the screws light on dark metal. */
export function drawnChassis(): Promise<Buffer> {
	const tube = (xPx: number, yPx: number): string =>
		`<circle cx="${xPx}" cy="${yPx}" r="62" fill="#30302e"/><circle cx="${xPx}" cy="${yPx}" r="44" fill="#777269"/>`;
	const can = (xPx: number, yPx: number): string =>
		`<rect x="${xPx}" y="${yPx}" width="170" height="130" rx="10" fill="#b9b4a8" stroke="#5d5950" stroke-width="6"/>${[55, 115].map((offPx) => `<circle cx="${xPx + offPx}" cy="${yPx + 65}" r="14" fill="#47433c"/>`).join('')}`;
	const drawing = [
		'<svg xmlns="http://www.w3.org/2000/svg" width="1200" height="900">',
		'<rect width="1200" height="900" fill="#6b5b45"/><rect x="70" y="90" width="1060" height="720" rx="12" fill="#8f8a7e"/>',
		'<rect x="140" y="330" width="230" height="330" fill="#c9c4b6" stroke="#5d5950" stroke-width="6"/>',
		...[0, 1, 2, 3, 4].map((k) => `<rect x="165" y="${360 + 60 * k}" width="180" height="10" fill="#5d5950"/>`),
		'<circle cx="345" cy="400" r="16" fill="#47433c"/><circle cx="345" cy="520" r="16" fill="#47433c"/>',
		can(440, 200),
		can(740, 200),
		...[
			[500, 500],
			[680, 500],
			[860, 500],
			[1010, 330],
			[1010, 620],
		].map(([xPx = 0, yPx = 0]) => tube(xPx, yPx)),
		'</svg>',
	].join('');
	return sharp(Buffer.from(drawing)).jpeg({ quality: 88 }).toBuffer();
}
