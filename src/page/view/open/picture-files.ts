/** What a browser offers where it asks for a picture: the ends of the names of files that are read. */
export const PICTURE_FILES = '.png,.jpg,.jpeg,.webp,.tif,.tiff';
