import type { PrintedPhoto } from '../src/report/printed-photo.ts';
import { exampleCard } from './example-set.ts';
import { photoFile } from './photo-file.ts';

/** Photographs of the demo set as they go on paper, upright and lying by turns: two of the chassis with its numbers, the others before and after. */
export async function printedAlbum(count: number): Promise<readonly PrintedPhoto[]> {
	const numbered = (exampleCard().adjusters ?? []).map(({ id }, k) => ({
		adjuster: id,
		x: 0.1 + 0.09 * k,
		y: 0.2 + 0.07 * k,
	}));
	const [lying, upright] = await Promise.all([photoFile(320, 240), photoFile(240, 320)]);
	return Array.from({ length: count }, (_, k): PrintedPhoto => {
		const isUpright = k % 5 === 4;
		return {
			href: `data:image/jpeg;base64,${(isUpright ? upright : lying).toString('base64')}`,
			photo: {
				id: `photo-${k}`,
				addedAtMs: k,
				widthPx: isUpright ? 240 : 320,
				heightPx: isUpright ? 320 : 240,
				view: 'top',
				moment: k < 2 ? 'any time' : k % 2 === 0 ? 'before' : 'after',
				caption: `Photograph ${k + 1}`,
				places: k === 0 ? numbered.slice(0, 4) : k === 1 ? numbered.slice(4) : [],
			},
		};
	});
}
