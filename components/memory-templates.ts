import type { Template } from '../shared/template.ts';
import type { TemplateShelf } from './services.ts';

/** A person's own templates for as long as the page is open, where the browser offers no store. */
export class MemoryTemplates implements TemplateShelf {
  private readonly held = new Map<string, Template>();

  async list(): Promise<readonly Template[]> {
    return [...this.held.values()];
  }

  async keep(template: Template): Promise<void> {
    this.held.set(template.id, template);
  }

  async remove(id: string): Promise<void> {
    this.held.delete(id);
  }
}
