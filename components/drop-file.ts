import type { ReactiveController, ReactiveElement } from 'lit';

/**
 * Files dropped on an element. `isOver` is true while one is held above it, for a look that says so; the
 * browser would otherwise open the file in place of the page.
 */
export class DropFile implements ReactiveController {
  isOver = false;
  private depth = 0;

  constructor(
    private readonly host: ReactiveElement,
    private readonly take: (file: File) => void,
  ) {
    host.addController(this);
  }

  hostConnected(): void {
    this.host.addEventListener('dragenter', this.onEnter);
    this.host.addEventListener('dragover', this.onOver);
    this.host.addEventListener('dragleave', this.onLeave);
    this.host.addEventListener('drop', this.onDrop);
  }

  hostDisconnected(): void {
    this.host.removeEventListener('dragenter', this.onEnter);
    this.host.removeEventListener('dragover', this.onOver);
    this.host.removeEventListener('dragleave', this.onLeave);
    this.host.removeEventListener('drop', this.onDrop);
    this.hold(0);
  }

  private hold(depth: number): void {
    this.depth = Math.max(0, depth);
    const isOver = this.depth > 0;
    if (isOver === this.isOver) return;
    this.isOver = isOver;
    this.host.requestUpdate();
  }

  private readonly onEnter = (event: DragEvent): void => {
    if (hasFiles(event)) this.hold(this.depth + 1);
  };

  private readonly onOver = (event: DragEvent): void => {
    if (!hasFiles(event)) return;
    event.preventDefault();
    if (event.dataTransfer) event.dataTransfer.dropEffect = 'copy';
  };

  private readonly onLeave = (event: DragEvent): void => {
    if (hasFiles(event)) this.hold(this.depth - 1);
  };

  private readonly onDrop = (event: DragEvent): void => {
    if (!hasFiles(event)) return;
    this.hold(0);
    // An element inside this one has taken it.
    if (event.defaultPrevented) return;
    event.preventDefault();
    const file = event.dataTransfer?.files[0];
    if (file) this.take(file);
  };
}

function hasFiles(event: DragEvent): boolean {
  return event.dataTransfer?.types.includes('Files') === true;
}
