import type { Adjuster, SetCard } from '#record/set-card.ts';
import { escaped, place } from './svg.ts';

const widthPx = 640;
const heightPx = 400;
const marginPx = 44;
const tagRadiusPx = 13;

/** The plan's numbers: adjusters in the order of the card, counted from 1, as the sheet calls them. */
export function adjusterNumbers(card: SetCard): ReadonlyMap<string, number> {
	return new Map((card.adjusters ?? []).map(({ id }, index) => [id, index + 1]));
}

interface Spot {
	readonly xPx: number;
	readonly yPx: number;
	readonly placed: boolean;
}

/** Where each adjuster is drawn; those without a place stand in a row below the chassis. */
function spots(adjusters: readonly Adjuster[]): readonly Spot[] {
	let loose = 0;
	return adjusters.map(({ x, y }) => {
		if (x !== undefined && y !== undefined) {
			return {
				xPx: marginPx + x * (widthPx - 2 * marginPx),
				yPx: marginPx + y * (heightPx - 2 * marginPx),
				placed: true,
			};
		}
		return { xPx: marginPx + 40 * loose++, yPx: heightPx + 30, placed: false };
	});
}

/** A transformer's can around its adjusters, so that the plan shows which belong together. */
function cans(adjusters: readonly Adjuster[], drawn: readonly Spot[]): string {
	const groups = new Map<number, Spot[]>();
	for (const [index, { stage, transformer }] of adjusters.entries()) {
		const spot = drawn[index];
		if (stage === 'IF' && transformer !== undefined && spot?.placed)
			groups.set(transformer, [...(groups.get(transformer) ?? []), spot]);
	}
	return [...groups]
		.map(([transformer, group]) => {
			const left = Math.min(...group.map(({ xPx }) => xPx)) - 24;
			const right = Math.max(...group.map(({ xPx }) => xPx)) + 24;
			const top = Math.min(...group.map(({ yPx }) => yPx)) - 26;
			const bottom = Math.max(...group.map(({ yPx }) => yPx)) + 26;
			return `<rect class="ink-line" x="${place(left)}" y="${place(top)}" width="${place(right - left)}" height="${place(bottom - top)}" rx="3"/><text class="small" x="${place((left + right) / 2)}" y="${place(top - 6)}" text-anchor="middle">IF ${transformer}</text>`;
		})
		.join('');
}

function tag(adjuster: Adjuster, spot: Spot, number: number, isActive: boolean): string {
	const side = adjuster.where === 'under' ? ' under' : '';
	return `<g class="tag${side}${isActive ? ' active' : ''}" data-adjuster="${escaped(adjuster.id)}"><title>${number}: ${escaped(adjuster.name)}${adjuster.where === 'under' ? ', under the chassis' : ''}</title><circle cx="${place(spot.xPx)}" cy="${place(spot.yPx)}" r="${tagRadiusPx}"/><text x="${place(spot.xPx)}" y="${place(spot.yPx + 5)}" text-anchor="middle">${number}</text></g>`;
}

/**
 * Plan of the chassis from above as SVG text: cans, and a numbered tag for each adjuster; those under the chassis are dashed.
 * @param active the adjuster that is to be turned now, filled with the accent
 */
export function chassisPlan(card: SetCard, active: string | null): string {
	const adjusters = card.adjusters ?? [];
	const drawn = spots(adjusters);
	const loose = drawn.some(({ placed }) => !placed);
	const height = heightPx + (loose ? 60 : 0);
	const numbers = adjusterNumbers(card);
	const tags = adjusters.map((adjuster, index) =>
		tag(adjuster, drawn[index] as Spot, numbers.get(adjuster.id) ?? 0, adjuster.id === active),
	);
	return [
		`<svg class="plan" viewBox="0 0 ${widthPx} ${height}" role="img" aria-label="Chassis from above with ${adjusters.length} numbered adjusters" xmlns="http://www.w3.org/2000/svg">`,
		`<rect class="ink-line" x="14" y="14" width="${widthPx - 28}" height="${heightPx - 44}" rx="4"/>`,
		`<text class="small" x="${widthPx / 2}" y="${heightPx - 12}" text-anchor="middle">front</text>`,
		cans(adjusters, drawn),
		...tags,
		loose
			? `<text class="small" x="${marginPx + 40 * drawn.filter(({ placed }) => !placed).length}" y="${heightPx + 35}">place not on the card</text>`
			: '',
		'</svg>',
	].join('');
}
