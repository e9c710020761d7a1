import { type Language, usualLanguage } from '#record/language.ts';
import type { Adjuster, SetCard } from '#record/set-card.ts';
import { escaped, place } from './svg.ts';

const tagRadiusPx = 13;
const tagGapPx = 2 * tagRadiusPx + 4;

/** The plan's numbers: adjusters in the order of the card, counted from 1, as the sheet calls them. */
export function adjusterNumbers(card: SetCard): ReadonlyMap<string, number> {
	return new Map((card.adjusters ?? []).map(({ id }, index) => [id, index + 1]));
}

/** An adjuster in a drawing. */
export interface Spot {
	/** Where the adjuster is. */
	readonly xPx: number;
	readonly yPx: number;
	readonly placed: boolean;
}

/** The part of a drawing that its tags keep within. */
interface Within {
	readonly left: number;
	readonly top: number;
	readonly right: number;
	readonly bottom: number;
}

/** Where an adjuster's number is drawn. */
export interface Tag {
	readonly xPx: number;
	readonly yPx: number;
}

/** A place kept between two others. */
export const held = (valuePx: number, leastPx: number, mostPx: number) => Math.max(leastPx, Math.min(mostPx, valuePx));

/** Tags moved apart until none covers another; each stays as near to its spot as the others allow. */
export function apart(drawn: readonly Spot[], within: Within): readonly Tag[] {
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
				tag.xPx = held(tag.xPx - ux * pushPx, within.left, within.right);
				tag.yPx = held(tag.yPx - uy * pushPx, within.top, within.bottom);
				other.xPx = held(other.xPx + ux * pushPx, within.left, within.right);
				other.yPx = held(other.yPx + uy * pushPx, within.top, within.bottom);
			}
		}
	}
	return tags;
}

/** The line from a number to its adjuster, where the number does not stand on it. */
export function leader(spot: Spot, tag: Tag): string {
	const offPx = Math.hypot(tag.xPx - spot.xPx, tag.yPx - spot.yPx);
	return offPx < 4
		? ''
		: `<path class="ink-line" d="M${place(tag.xPx)} ${place(tag.yPx)} L${place(spot.xPx)} ${place(spot.yPx)}"/><circle class="joint" cx="${place(spot.xPx)}" cy="${place(spot.yPx)}" r="2.5"/>`;
}

/** The numbered tag of an adjuster; dashed for one under the chassis, filled with the accent for the one in hand. */
export function numbered(
	adjuster: Adjuster,
	{ xPx, yPx }: Tag,
	number: number,
	isActive: boolean,
	{ say }: Language = usualLanguage,
): string {
	const name = `${number}: ${adjuster.name}`;
	const title = adjuster.where === 'under' ? say`${name}, under the chassis` : name;
	const side = adjuster.where === 'under' ? ' under' : '';
	return `<g class="tag${side}${isActive ? ' active' : ''}" data-adjuster="${escaped(adjuster.id)}"><title>${escaped(title)}</title><circle cx="${place(xPx)}" cy="${place(yPx)}" r="${tagRadiusPx}"/><text x="${place(xPx)}" y="${place(yPx + 5.5)}" text-anchor="middle">${number}</text></g>`;
}
