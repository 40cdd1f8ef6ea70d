/*
 * Whether whoever set this device up wants less motion: then what moves on the wall moves once a second.
 */

export function wantsLessMotion(): boolean {
  return window.matchMedia('(prefers-reduced-motion: reduce)').matches;
}
