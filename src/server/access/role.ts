// What a paired device may do.

/** Each may do what those before it may: read; record entries; everything else that writes. */
export const roles = ['reader', 'recorder', 'keeper'] as const;
export type Role = (typeof roles)[number];

export function isRole(text: string): text is Role {
  return roles.some((role) => role === text);
}

/** Whether a role is enough where another one is needed. */
export function reaches(role: Role, needed: Role): boolean {
  return roles.indexOf(role) >= roles.indexOf(needed);
}
