/*
 * What a drawing shows, told apart from how it is drawn: the charting library is only loaded with the drawing.
 */

import type { LaneOf, TestedPace, WeekOf } from '../../../app/core/record/history/over-time.ts';
import type { LengthUnit } from '../../../app/core/units.ts';

export type Drawn =
  | { readonly kind: 'distance by week'; readonly weeks: readonly WeekOf[]; readonly unit: LengthUnit }
  | { readonly kind: 'load by week'; readonly weeks: readonly WeekOf[] }
  | { readonly kind: 'distance by lane'; readonly lanes: readonly LaneOf[]; readonly unit: LengthUnit }
  | { readonly kind: 'css over time'; readonly paces: readonly TestedPace[]; readonly unit: LengthUnit };
