import type { Photo } from '#record/photo.ts';

/** A photograph with its picture, as it goes on paper. */
export interface PrintedPhoto {
	readonly photo: Photo;
	/** The picture itself as an address that needs no other file: `data:image/jpeg;base64,...`. */
	readonly href: string;
}
