/** The colours that sheets are drawn in. */
export const CARD = '#f6f3ec';
export const LETTERS = '#2d2b27';
export const QUIET = '#575248';
export const RULE = '#cfc8ba';
/** For what needs a second look. */
export const MADDER = '#8f3522';
