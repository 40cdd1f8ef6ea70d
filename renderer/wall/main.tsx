/*
 * The wall screen's page: `/display`.
 */

import { createRoot } from 'react-dom/client';
import { openLink } from '../link/link.ts';
import '../ui/tokens.css';
import '../ui/digits.css';
import { readWallChoice } from './lane-choice.ts';
import { WallScreen } from './wall-screen.tsx';
import './strips.css';
import './wall.css';

const root = document.getElementById('root');
if (!root) throw new Error('the page has no root');

const link = openLink('wall');
const choice = readWallChoice(location.search);
createRoot(root).render(<WallScreen link={link} choice={choice} address={location.origin} />);
