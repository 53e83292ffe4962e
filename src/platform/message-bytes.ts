// A letter that nodemailer has composed, written in one go. nodemailer itself writes the same bytes through some twenty
// streams, which was a third of what a letter cost a worker; the tests hold what is written here against what it writes.
// Only in a text above 64 KB, or one that ends in a space, may a long line be folded at another place, and reads the same.
import { Readable } from 'node:stream';
import * as base64 from 'nodemailer/lib/base64';
import type { PluginFunction } from 'nodemailer/lib/mailer';
import type MimeNode from 'nodemailer/lib/mime-node';
import * as quotedPrintable from 'nodemailer/lib/qp';

/** For a transporter’s step "stream": whoever reads its letters, once or again, finds them whole. */
export const inOneGo: PluginFunction = ({ message }, done) => {
  try {
    const bytes = Buffer.from(textOf(message));
    message.createReadStream = () =>
      new Readable({
        read() {
          this.push(bytes);
          this.push(null);
        },
      });
  } catch (error) {
    return done(error as Error);
  }
  done();
};

/**
 * Headers and parts (RFC 2046 5.1.1). The line ends within a part are as they came: who hands it over sees to them.
 * @throws TypeError for a part that is no text but would be read from elsewhere
 */
function textOf(node: MimeNode): string {
  const head = `${node.buildHeaders()}\r\n\r\n`; // by which the node knows its boundary
  if (!node.boundary) return head + encoded(node);
  const line = `--${node.boundary}`;
  return `${head}${node.childNodes.map((part) => `${line}\r\n${textOf(part)}\r\n`).join('')}${line}--\r\n`;
}

function encoded(node: MimeNode): string {
  const content = node.content ?? '';
  if (typeof content !== 'string') throw new TypeError('A part of a letter is text.');
  const encoding = node.getTransferEncoding();
  if (encoding === 'base64') return base64.wrap(base64.encode(content));
  return encoding === 'quoted-printable' ? quotedPrintable.wrap(quotedPrintable.encode(content)) : content;
}
