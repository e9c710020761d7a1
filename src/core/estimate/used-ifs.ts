/** Intermediate frequencies that broadcast sets really used, with how common each is taken to be. */

/** One IF of the list. */
export interface UsedIf {
	readonly ifHz: number;
	/** Relative frequency among old sets: assumed, no source gives counts. */
	readonly weight: number;
}

/** Where and when a set was made, as far as the person knows. */
export interface SetOrigin {
	readonly year: number | null;
	readonly country: string | null;
	/** The maker's habit, as typed by the person. */
	readonly habitHz: number | null;
}

const common: readonly (readonly [number, number])[] = [
	[455, 64],
	[456, 27],
	[465, 21],
	[175, 14],
	[460, 10],
	[450, 8],
	[262, 6],
	[470, 6],
	[262.5, 3],
];
// Australian sets, [champness-if]; each rare.
const australian = [
	30, 45, 50, 60, 173, 181.5, 182.5, 200, 210, 212.5, 220, 226, 250, 252, 252.5, 390, 445, 446, 452, 453, 453.5, 457.5,
	458, 462.5, 469,
];
// Europe: 447 and 468 from a page that calls itself unconfirmed, [noding-if]; 110 to 130 and 472 to 480 from memory.
const european: readonly (readonly [number, number])[] = [
	[110, 3],
	[115, 1],
	[125, 1],
	[128, 1],
	[130, 1],
	[447, 1],
	[468, 2],
	[472, 1],
	[473, 1],
	[480, 1],
];

/** How much likelier an IF is made by origin: broad leanings, no rules, [klase-if] [noding-if]. */
function leaning(ifHz: number, { year, country, habitHz }: SetOrigin): number {
	const ifKc = ifHz / 1e3;
	const place = country?.trim().toLowerCase() ?? '';
	const isAmerican = /^(us|usa|united states|america|canada)$/.test(place);
	const isEuropean =
		/^(uk|gb|britain|england|germany|de|france|fr|norway|denmark|sweden|netherlands|nl|italy|austria|europe)$/.test(
			place,
		);
	const isAustralian = /^(australia|au|new zealand|nz)$/.test(place);
	let times = 1;
	if (habitHz !== null && Math.abs(ifKc * 1e3 - habitHz) < 1.1e3) times *= 10;
	if (isAmerican && ifKc === 465 && year !== null) times *= year > 1940 ? 0.2 : 1.5;
	if (isAmerican && (ifKc === 455 || ifKc === 456) && year !== null && year > 1940) times *= 2;
	if (isAmerican && (ifKc === 447 || ifKc === 468 || ifKc >= 472 || (ifKc >= 110 && ifKc <= 130))) times *= 0.1;
	if (isEuropean && ifKc >= 460) times *= 3;
	if (isAustralian && australian.includes(ifKc)) times *= 4;
	if (year !== null && ifKc <= 182.5) times *= year <= 1934 ? 3 : year >= 1939 ? 0.15 : 1;
	if (year !== null && ifKc > 440 && year < 1932) times *= 0.2;
	return times;
}

/** The list with its weights for a set's origin, adding up to 1 with what is on no list. */
export function usedIfs(origin: SetOrigin): readonly UsedIf[] {
	const all = [...common, ...australian.map((kc) => [kc, 0.5] as const), ...european].map(([kc, weight]) => ({
		ifHz: kc * 1e3,
		weight: weight * leaning(kc * 1e3, origin),
	}));
	const whole = all.reduce((sum, { weight }) => sum + weight, 0);
	return all.map(({ ifHz, weight }) => ({ ifHz, weight: (weight / whole) * (1 - offListShare) }));
}

/** Share of sets whose IF is on no list (assumed). */
export const offListShare = 0.03;
