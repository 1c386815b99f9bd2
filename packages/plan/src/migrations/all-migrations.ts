/**
 * From each past format version to the next, by the version they start from. Pure, never changed once released.
 * Empty while there is only the first version.
 */
export const MIGRATIONS: Readonly<Record<number, (document: unknown) => unknown>> = {};
