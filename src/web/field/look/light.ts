// The light that the page is read in: by the phone's own setting, or chosen for sun or for dusk.

export type Light = 'auto' | 'sun' | 'dusk';

/** Draws the page for this light from now on. */
export function shine(light: Light): void {
  if (light === 'auto') delete document.documentElement.dataset.light;
  else document.documentElement.dataset.light = light;
}
