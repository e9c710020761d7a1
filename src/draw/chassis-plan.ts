import { type Language, usualLanguage } from '#record/language.ts';
import type { Adjuster, SetCard } from '#record/set-card.ts';
import { escaped, place } from './svg.ts';
import { adjusterNumbers, apart, held, leader, numbered, type Spot, type Tag } from './tags.ts';

/** Drawn as wide as a phone's column, so that its numbers are read there and on paper at their own size. */
const widthPx = 400;
const heightPx = 270;
/** The chassis within the drawing, and the part of it in which adjusters have their places. */
const edge = { left: 8, top: 8, right: 392, bottom: 240 } as const;
const marginPx = 34;

const acrossPx = edge.right - edge.left - 2 * marginPx;
const downPx = edge.bottom - edge.top - 2 * marginPx;

/**
 * A place of the card, from 0 to 1 across and down, that lies under a point of the plan.
 * @param acrossShare where the point lies on the drawn plan, as shares of its width and height
 */
export function placeOnPlan(
	acrossShare: number,
	downShare: number,
	adjusters: readonly Adjuster[],
): { readonly x: number; readonly y: number } {
	const share = (atPx: number, fromPx: number, overPx: number) =>
		Math.round(held((atPx - fromPx) / overPx, 0, 1) * 100) / 100;
	return {
		x: share(acrossShare * widthPx, edge.left + marginPx, acrossPx),
		y: share(downShare * planHeightPx(adjusters), edge.top + marginPx, downPx),
	};
}

/** Where each adjuster is drawn; those without a place stand in rows below the chassis. */
function spots(adjusters: readonly Adjuster[]): readonly Spot[] {
	let loose = 0;
	return adjusters.map(({ x, y }) => {
		if (x !== undefined && y !== undefined) {
			return {
				xPx: edge.left + marginPx + x * acrossPx,
				yPx: edge.top + marginPx + y * downPx,
				placed: true,
			};
		}
		const column = loose % 11;
		const row = Math.floor(loose++ / 11);
		return { xPx: 22 + 34 * column, yPx: heightPx + 40 + 34 * row, placed: false };
	});
}

/** A transformer's can around its adjusters, so that the plan shows which belong together. */
function cans(adjusters: readonly Adjuster[], drawn: readonly Spot[], tags: readonly Tag[]): string {
	const groups = new Map<number, Tag[]>();
	for (const [index, { stage, transformer }] of adjusters.entries()) {
		const tag = tags[index];
		if (stage === 'IF' && transformer !== undefined && tag && drawn[index]?.placed)
			groups.set(transformer, [...(groups.get(transformer) ?? []), tag]);
	}
	return [...groups]
		.map(([transformer, group]) => {
			const left = Math.min(...group.map(({ xPx }) => xPx)) - 20;
			const right = Math.max(...group.map(({ xPx }) => xPx)) + 20;
			const top = Math.min(...group.map(({ yPx }) => yPx)) - 20;
			const bottom = Math.max(...group.map(({ yPx }) => yPx)) + 20;
			return `<rect class="ink-line" x="${place(left)}" y="${place(top)}" width="${place(right - left)}" height="${place(bottom - top)}" rx="3"/><text class="small" x="${place((left + right) / 2)}" y="${place(bottom + 17)}" text-anchor="middle">IF ${transformer}</text>`;
		})
		.join('');
}

/** Height of the plan of a card with these adjusters: those without a place stand in rows below the chassis. */
function planHeightPx(adjusters: readonly Adjuster[]): number {
	const loose = adjusters.filter(({ x, y }) => x === undefined || y === undefined).length;
	return heightPx + (loose > 0 ? 26 + 34 * Math.ceil(loose / 11) : 0);
}

/**
 * Plan of the chassis from above as SVG text: cans, and a numbered tag for each adjuster; those under the chassis are dashed.
 * @param active the adjuster that is to be turned now, filled with the accent
 */
export function chassisPlan(card: SetCard, active: string | null, language: Language = usualLanguage): string {
	const { say } = language;
	const adjusters = card.adjusters ?? [];
	const drawn = spots(adjusters);
	const tags = apart(drawn, {
		left: edge.left + 18,
		top: edge.top + 18,
		right: edge.right - 18,
		bottom: edge.bottom - 18,
	});
	const numbers = adjusterNumbers(card);
	const tagged = adjusters.map((adjuster, index) =>
		numbered(adjuster, tags[index] as Tag, numbers.get(adjuster.id) ?? 0, adjuster.id === active, language),
	);
	return [
		`<svg class="plan" viewBox="0 0 ${widthPx} ${planHeightPx(adjusters)}" role="img" aria-label="${escaped(say`Chassis from above with ${adjusters.length} numbered adjusters`)}" xmlns="http://www.w3.org/2000/svg">`,
		`<rect class="ink-line" x="${edge.left}" y="${edge.top}" width="${edge.right - edge.left}" height="${edge.bottom - edge.top}" rx="4"/>`,
		`<text class="small" x="${widthPx / 2}" y="${edge.bottom + 20}" text-anchor="middle">${escaped(say`front`)}</text>`,
		cans(adjusters, drawn, tags),
		...drawn.map((spot, index) => leader(spot, tags[index] as Tag)),
		...tagged,
		drawn.some(({ placed }) => !placed)
			? `<text class="small" x="8" y="${heightPx + 18}">${escaped(say`place not on the card`)}</text>`
			: '',
		'</svg>',
	].join('');
}
