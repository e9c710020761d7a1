import type { Adjuster, SetCard } from '#record/set-card.ts';
import { escaped, place } from './svg.ts';

/** Drawn as wide as a phone's column, so that its numbers are read there and on paper at their own size. */
const widthPx = 400;
const heightPx = 270;
/** The chassis within the drawing, and the part of it in which adjusters have their places. */
const edge = { left: 8, top: 8, right: 392, bottom: 240 } as const;
const marginPx = 34;
const tagRadiusPx = 13;
const tagGapPx = 2 * tagRadiusPx + 4;

/** The plan's numbers: adjusters in the order of the card, counted from 1, as the sheet calls them. */
export function adjusterNumbers(card: SetCard): ReadonlyMap<string, number> {
	return new Map((card.adjusters ?? []).map(({ id }, index) => [id, index + 1]));
}

interface Spot {
	/** Where the adjuster is. */
	readonly xPx: number;
	readonly yPx: number;
	readonly placed: boolean;
}

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

interface Tag {
	readonly xPx: number;
	readonly yPx: number;
}

const held = (valuePx: number, leastPx: number, mostPx: number) => Math.max(leastPx, Math.min(mostPx, valuePx));

/** Tags moved apart until none covers another; each stays as near to its spot as the others allow. */
function apart(drawn: readonly Spot[]): readonly Tag[] {
	const tags = drawn.map(({ xPx, yPx }) => ({ xPx, yPx }));
	for (let round = 0; round < 60; round++) {
		for (const [index, tag] of tags.entries()) {
			for (const [otherIndex, other] of tags.entries()) {
				if (otherIndex <= index || !drawn[index]?.placed || !drawn[otherIndex]?.placed) continue;
				const [dx, dy] = [other.xPx - tag.xPx, other.yPx - tag.yPx];
				const offPx = Math.hypot(dx, dy);
				if (offPx >= tagGapPx) continue;
				const pushPx = (tagGapPx - offPx) / 2;
				// Two on one spot go apart sideways.
				const [ux, uy] = offPx > 0.5 ? [dx / offPx, dy / offPx] : [1, 0];
				tag.xPx = held(tag.xPx - ux * pushPx, edge.left + 18, edge.right - 18);
				tag.yPx = held(tag.yPx - uy * pushPx, edge.top + 18, edge.bottom - 18);
				other.xPx = held(other.xPx + ux * pushPx, edge.left + 18, edge.right - 18);
				other.yPx = held(other.yPx + uy * pushPx, edge.top + 18, edge.bottom - 18);
			}
		}
	}
	return tags;
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

function leader(spot: Spot, tag: Tag): string {
	const offPx = Math.hypot(tag.xPx - spot.xPx, tag.yPx - spot.yPx);
	return offPx < 4
		? ''
		: `<path class="ink-line" d="M${place(tag.xPx)} ${place(tag.yPx)} L${place(spot.xPx)} ${place(spot.yPx)}"/><circle class="joint" cx="${place(spot.xPx)}" cy="${place(spot.yPx)}" r="2.5"/>`;
}

function numbered(adjuster: Adjuster, { xPx, yPx }: Tag, number: number, isActive: boolean): string {
	const side = adjuster.where === 'under' ? ' under' : '';
	return `<g class="tag${side}${isActive ? ' active' : ''}" data-adjuster="${escaped(adjuster.id)}"><title>${number}: ${escaped(adjuster.name)}${adjuster.where === 'under' ? ', under the chassis' : ''}</title><circle cx="${place(xPx)}" cy="${place(yPx)}" r="${tagRadiusPx}"/><text x="${place(xPx)}" y="${place(yPx + 5.5)}" text-anchor="middle">${number}</text></g>`;
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
export function chassisPlan(card: SetCard, active: string | null): string {
	const adjusters = card.adjusters ?? [];
	const drawn = spots(adjusters);
	const tags = apart(drawn);
	const numbers = adjusterNumbers(card);
	const tagged = adjusters.map((adjuster, index) =>
		numbered(adjuster, tags[index] as Tag, numbers.get(adjuster.id) ?? 0, adjuster.id === active),
	);
	return [
		`<svg class="plan" viewBox="0 0 ${widthPx} ${planHeightPx(adjusters)}" role="img" aria-label="Chassis from above with ${adjusters.length} numbered adjusters" xmlns="http://www.w3.org/2000/svg">`,
		`<rect class="ink-line" x="${edge.left}" y="${edge.top}" width="${edge.right - edge.left}" height="${edge.bottom - edge.top}" rx="4"/>`,
		`<text class="small" x="${widthPx / 2}" y="${edge.bottom + 20}" text-anchor="middle">front</text>`,
		cans(adjusters, drawn, tags),
		...drawn.map((spot, index) => leader(spot, tags[index] as Tag)),
		...tagged,
		drawn.some(({ placed }) => !placed)
			? `<text class="small" x="8" y="${heightPx + 18}">place not on the card</text>`
			: '',
		'</svg>',
	].join('');
}
