import { launch } from './support.mjs';
import { writeFileSync } from 'node:fs';
const base='http://127.0.0.1:8051';
const b=await launch(base); const p=await b.newPage({viewport:{width:680,height:1009}});
await p.goto(base+'/staff/sign-in'); await p.fill('input[name=name]','Dr Beck'); await p.fill('input[name=password]','eleven crests'); await p.click('button[type=submit]'); await p.waitForURL('**/class-sets');
for (const path of ['/class-sets/1/feedback/sheets/E','/class-sets/1/feedback/print']) { await p.goto(base+path);
const pdf=await p.pdf({format:'A4',preferCSSPageSize:true}); writeFileSync('/tmp/x.pdf',pdf); console.log(path,(pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)??[]).length); 
await p.emulateMedia({media:'print'}); console.log(await p.evaluate(()=>[...document.querySelectorAll('body > *, main > *')].map(e=>[e.tagName,e.className,Math.round(e.getBoundingClientRect().top),Math.round(e.getBoundingClientRect().height), getComputedStyle(e).display].join(' '))));
}
await b.close();
