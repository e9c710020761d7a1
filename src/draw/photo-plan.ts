import { type Language, usualLanguage } from '#record/language.ts';
import type { Photo } from '#record/photo.ts';
import type { SetCard } from '#record/set-card.ts';
import { escaped, place } from './svg.ts';
import { adjusterNumbers, apart, leader, numbered, type Spot } from './tags.ts';

/** How far a number stands from its adjuster, so that the screw can still be seen. */
const besidePx = 30;
const marginPx = 16;

/**
 * A photograph with the numbers of the adjusters that were placed on it, as the sheet calls them, as SVG text.
 * @param href where the picture is
 * @param active the adjuster in hand, filled with the accent
 * @param widthPx of the picture: as wide as it is shown, so that its numbers stay legible
 */
export function photoPlan(
	photo: Photo,
	href: string,
	card: SetCard,
	active: string | null,
	language: Language = usualLanguage,
	widthPx = 400,
): string {
	const heightPx = (widthPx * photo.heightPx) / photo.widthPx;
	const numbers = adjusterNumbers(card);
	const placed = photo.places.flatMap(({ adjuster, x, y }) => {
		const found = card.adjusters?.find(({ id }) => id === adjuster);
		return found ? [{ adjuster: found, xPx: x * widthPx, yPx: y * heightPx, placed: true }] : [];
	});
	const beside = placed.map(
		(spot): Spot => ({ ...spot, yPx: spot.yPx + (spot.yPx > besidePx + marginPx ? -besidePx : besidePx) }),
	);
	const tags = apart(beside, {
		left: marginPx,
		top: marginPx,
		right: widthPx - marginPx,
		bottom: heightPx - marginPx,
	});
	const drawn = placed.map((spot, index) => {
		const tag = tags[index] ?? spot;
		const line = leader(spot, tag);
		return {
			line: `<g class="halo">${line}</g>${line}`,
			tag: numbered(spot.adjuster, tag, numbers.get(spot.adjuster.id) ?? 0, spot.adjuster.id === active, language),
		};
	});
	return [
		`<svg class="plan photo" viewBox="0 0 ${widthPx} ${place(heightPx)}" role="img" aria-label="${escaped(language.say`${photoTitle(photo, language)}, with ${placed.length} numbered adjusters`)}" xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink">`,
		`<image x="0" y="0" width="${widthPx}" height="${place(heightPx)}" xlink:href="${escaped(href)}"/>`,
		...drawn.map(({ line }) => line),
		...drawn.map(({ tag }) => tag),
		'</svg>',
	].join('');
}

const viewWords = ({ say }: Language): Readonly<Record<Photo['view'], string>> => ({
	top: say`Chassis from above`,
	under: say`Chassis from below`,
	'tuning head': say`Tuning head`,
	front: say`Front`,
	back: say`Back`,
	part: say`Part`,
});

/** What a photograph shows, in words: its caption, else its view. */
export function photoTitle({ view, moment, caption }: Photo, language: Language = usualLanguage): string {
	const { say } = language;
	const shown = caption.trim() === '' ? viewWords(language)[view] : caption.trim();
	if (moment === 'any time') return shown;
	return moment === 'before' ? say`${shown} (before)` : say`${shown} (after)`;
}
