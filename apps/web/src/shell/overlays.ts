/** Where menus and workings open: a landmark of their own, outside the sheet. */
export const overlays = (): Element => document.getElementById("overlays") ?? document.body;
