import { photoPlan, photoTitle } from '#draw/photo-plan.ts';
import { printed } from '#draw/printed.ts';
import type { Language } from '#record/language.ts';
import type { SetCard } from '#record/set-card.ts';
import { shownWords } from '#record/shown-words.ts';
import { type Across, acrossMm, type PrintedBlock, type PrintedDrawing } from './printed-document.ts';
import type { PrintedPhoto } from './printed-photo.ts';
import { reportWords } from './report-words.ts';

/** A photograph of four to three, as most are, fills its column; a higher one is printed narrower. */
const highToWide = 3 / 4;
/** So that the numbers on it have the size of those on the drawn plan. */
const pxPerMm = 400 / 82;
/** Longest caption under a photograph, characters: two lines in a column of four. */
const captionLetters = 48;
/** With so many or fewer there is room to print them large. */
const fewPhotos = 4;
/** So high that the owner's page stays one. */
const ownerHighMm = 50;
/** Of the chassis with its numbers, and of all others: a report stays four pages with so many. */
const most = { ofPlan: 4, further: 8 } as const;

/** How many stand beside each other: a set with few photographs has them printed large. */
function acrossOf(count: number, ofSet: number): Across {
	if (count > 3) return 4;
	return count === 3 || ofSet > fewPhotos ? 3 : 2;
}

function picture({ photo, href }: PrintedPhoto, card: SetCard, language: Language, highestMm: number, across: Across) {
	const widthMm = Math.min(acrossMm[across], (highestMm * photo.widthPx) / photo.heightPx);
	return {
		svg: printed(photoPlan(photo, href, card, null, language, widthMm * pxPerMm)),
		words: shownWords(photoTitle(photo, language), captionLetters),
		widthMm,
	} satisfies PrintedDrawing;
}

/** Photographs beside each other, as large as their number allows. */
function beside(
	photos: readonly PrintedPhoto[],
	card: SetCard,
	language: Language,
	across: Across,
	mostMm = Number.POSITIVE_INFINITY,
): readonly PrintedBlock[] {
	const highestMm = Math.min(mostMm, acrossMm[across] * highToWide);
	const pictures = photos.map((one) => picture(one, card, language, highestMm, across));
	return pictures.length === 0 ? [] : [{ kind: 'pictures', across, pictures }];
}

const ofPlan = ({ photo }: PrintedPhoto): boolean => photo.places.length > 0;

/** The first two photographs on which adjusters have their numbers, no higher than this, and whether no adjuster is left without one. */
export function planPictures(photos: readonly PrintedPhoto[], card: SetCard, language: Language, highestMm: number) {
	const chosen = photos.filter(ofPlan).slice(0, 2);
	const placed = new Set(chosen.flatMap(({ photo }) => photo.places.map(({ adjuster }) => adjuster)));
	return {
		pictures: chosen.map((one) => picture(one, card, language, highestMm, 2)),
		isWhole: (card.adjusters ?? []).every(({ id }) => placed.has(id)),
	};
}

/** The first photographs on which adjusters have their numbers: they belong beside the chassis plan. */
export function planPhotoBlocks(
	photos: readonly PrintedPhoto[],
	card: SetCard,
	language: Language,
): readonly PrintedBlock[] {
	const chosen = photos.filter(ofPlan).slice(0, most.ofPlan);
	return beside(chosen, card, language, acrossOf(chosen.length, photos.length));
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
	return beside(sorted(photos).pairs[0] ?? [], card, language, 2, ownerHighMm);
}

/** The pairs that the owner's page does not show, then what else was photographed; how many more are kept with the set is said. */
export function photoBlocks(
	photos: readonly PrintedPhoto[],
	card: SetCard,
	language: Language,
): readonly PrintedBlock[] {
	const { pairs, single } = sorted(photos);
	const further = [...pairs.slice(1).flat(), ...single];
	const left = Math.max(0, further.length - most.further) + Math.max(0, photos.filter(ofPlan).length - most.ofPlan);
	if (further.length + left === 0) return [];
	const say = reportWords(language);
	return [
		{ kind: 'heading', words: say.photographs },
		...beside(further.slice(0, most.further), card, language, acrossOf(further.length, photos.length)),
		...(left > 0 ? [{ kind: 'paragraph', words: say.photosLeft(left) } as const] : []),
	];
}
