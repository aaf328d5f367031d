// GET / and what it needs: the start page, its style sheet, its icon.
import { text, unchanged, wanted } from '../answers.ts';
import type { App, Room } from '../environment.ts';
import { startPage } from '../page/start.ts';
import { icon, styleSheet } from '../page/style.ts';
import { reportOf } from './reports.ts';

export function addPages(app: App, room: Room): void {
  const { program, reading, field } = room;
  app.get('/', (context) => {
    wanted(context, ['text/html']);
    return reading.look({}, (look) => {
      const same = unchanged(context, look.head, `text/html ${program} ${look.names.size}`);
      if (same) return same;
      const page = startPage({ look, report: reportOf(look, room, {}), program, field });
      return text(context, 'text/html; charset=utf-8', page);
    });
  });
  app.get('/style.css', (context) => {
    context.header('Cache-Control', 'no-cache');
    return text(context, 'text/css; charset=utf-8', styleSheet);
  });
  // Browsers ask for the second address by themselves where a page names no icon, as the report does.
  for (const address of ['/icon.svg', '/favicon.ico']) {
    app.get(address, (context) => {
      context.header('Cache-Control', 'max-age=86400');
      return text(context, 'image/svg+xml', icon);
    });
  }
}
