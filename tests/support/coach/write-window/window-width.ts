/*
 * How wide the page of a component test is.
 */

interface HappyWindow {
  readonly happyDOM: { setViewport(to: { width: number; height: number }): void };
}

export function setWindowWidth(width: number): void {
  (window as unknown as HappyWindow).happyDOM.setViewport({ width, height: 800 });
}
