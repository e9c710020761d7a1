import { photoPlan, photoTitle } from '#draw/photo-plan.ts';
import { printed } from '#draw/printed.ts';
import type { Language } from '#record/language.ts';
import type { SetCard } from '#record/set-card.ts';
import type { PrintedBlock, PrintedDrawing } from './printed-document.ts';
import type { PrintedPhoto } from './printed-photo.ts';
import { reportWords } from './report-words.ts';

/** Two of them fill the width of the page. */
const besideMm = 82;
/** So high that three rows stand on a page. */
const usualHighMm = 78;

function picture(
	{ photo, href }: PrintedPhoto,
	card: SetCard,
	language: Language,
	highestMm = usualHighMm,
): PrintedDrawing {
	return {
		svg: printed(photoPlan(photo, href, card, null, language)),
		words: photoTitle(photo, language),
		widthMm: Math.min(besideMm, (highestMm * photo.widthPx) / photo.heightPx),
	};
}

const ofPlan = ({ photo }: PrintedPhoto): boolean => photo.places.length > 0;

/** The first two photographs on which adjusters have their numbers, no higher than this, and whether no adjuster is left without one. */
export function planPictures(photos: readonly PrintedPhoto[], card: SetCard, language: Language, highestMm: number) {
	const chosen = photos.filter(ofPlan).slice(0, 2);
	const placed = new Set(chosen.flatMap(({ photo }) => photo.places.map(({ adjuster }) => adjuster)));
	return {
		pictures: chosen.map((one) => picture(one, card, language, highestMm)),
		isWhole: (card.adjusters ?? []).every(({ id }) => placed.has(id)),
	};
}

/** Photographs on which adjusters have their numbers: they belong beside the chassis plan. */
export function planPhotoBlocks(
	photos: readonly PrintedPhoto[],
	card: SetCard,
	language: Language,
): readonly PrintedBlock[] {
	const pictures = photos.filter(ofPlan).map((one) => picture(one, card, language));
	return pictures.length === 0 ? [] : [{ kind: 'pictures', pictures }];
}

/** The photographs without numbers: before beside after as pairs, in the order in which they were added, and the others. */
function sorted(photos: readonly PrintedPhoto[]): {
	readonly pairs: readonly (readonly [PrintedPhoto, PrintedPhoto])[];
	readonly single: readonly PrintedPhoto[];
} {
	const of = (moment: PrintedPhoto['photo']['moment']) =>
		photos.filter((one) => !ofPlan(one) && one.photo.moment === moment);
	const [before, after] = [of('before'), of('after')];
	const pairs = before.flatMap((early, k) => {
		const late = after[k];
		return late ? [[early, late] as const] : [];
	});
	return { pairs, single: [...before.slice(pairs.length), ...after.slice(pairs.length), ...of('any time')] };
}

/** One pair of before and after, for the owner. */
export function ownerPhotoBlocks(
	photos: readonly PrintedPhoto[],
	card: SetCard,
	language: Language,
): readonly PrintedBlock[] {
	const [pair] = sorted(photos).pairs;
	return pair ? [{ kind: 'pictures', pictures: pair.map((one) => picture(one, card, language)) }] : [];
}

/** The pairs that the owner's page does not show, then what else was photographed. */
export function photoBlocks(
	photos: readonly PrintedPhoto[],
	card: SetCard,
	language: Language,
): readonly PrintedBlock[] {
	const { pairs, single } = sorted(photos);
	const further = [...pairs.slice(1).flat(), ...single];
	if (further.length === 0) return [];
	return [
		{ kind: 'heading', words: reportWords(language).photographs },
		{ kind: 'pictures', pictures: further.map((one) => picture(one, card, language)) },
	];
}
