/*
 * Whether an editor's cursor is in sight. It is looked up when the editor measures itself: at any other moment the page
 * would have to be laid out for it, while a key may wait.
 */

import { ViewPlugin, type EditorView } from '@codemirror/view';

class CursorInSight {
  is = false;
  private readonly look = { key: this, read: (view: EditorView) => void (this.is = isInSight(view)) };

  constructor(view: EditorView) {
    this.lookAt(view);
  }

  update({ view }: { readonly view: EditorView }): void {
    this.lookAt(view);
  }

  lookAt(view: EditorView): void {
    view.requestMeasure(this.look);
  }
}

/** For `hasCursorInSight`. */
export const cursorInSight = ViewPlugin.fromClass(CursorInSight, {
  eventObservers: {
    scroll(_, view) {
      this.lookAt(view);
    },
  },
});

/** When the editor was last measured: what comes between the lines must not push it, or what was just put there, out of it. */
export function hasCursorInSight(view: EditorView): boolean {
  return view.plugin(cursorInSight)?.is ?? false;
}

function isInSight(view: EditorView): boolean {
  const at = view.coordsAtPos(view.state.selection.main.head);
  if (!at) return false;
  const { top, bottom } = view.scrollDOM.getBoundingClientRect();
  return at.top >= Math.max(top, 0) && at.bottom <= Math.min(bottom, window.innerHeight);
}
