// look: colours, type, spacing and symbols of the field page; docs/look.md says what and why. Knows no screens.
import './styles/tokens.css';
import './styles/base.css';
import './styles/frame.css';
import './styles/controls.css';
import './styles/fields.css';
import './styles/pieces.css';

export { type Light, shine } from './light.ts';
export { Sign, type SignName } from './signs.tsx';
