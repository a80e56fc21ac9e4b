"""Odds of the ready time of the Heron Flat night, reckoned apart from the library.

Explicit 60 s steps of the water balance, all draws at once. Outlet: the less of
full-pipe Darcy flow (head above the outfall's centreline or the tide) and
critical depth in the mouth with 5 % loss, drowned after Villemonte; flap gate.
Tide: a cosine of 12.42 h. Friction: Colebrook, or held at 0.0165. Prints the
share of 6,000 nights ready after 03:00 and the tenth, fiftieth and ninetieth
percentile in hours after midnight, for losses drawn normal and lognormal.
Needs NumPy; run with 1.24.2.
"""
import numpy as np

def run(mode,knorm,n=6000,seed=3):
    r=np.random.default_rng(seed)
    if knorm: K=2.7*np.clip(1+.2*r.normal(size=n),.37,None)
    else:
        s=np.sqrt(np.log1p(.04)); K=2.7*np.exp(s*r.normal(size=n)-s*s/2)
    K=np.maximum(K,1); surge=.1*r.normal(size=n); area=1+.03*r.normal(size=n); amp=.55*(1+.05*r.normal(size=n))
    g=9.80665;D=.3;L=18;A=np.pi*D*D/4;nu=.85e-6;eps=1.5e-5
    th=np.linspace(1e-3,2*np.pi-1e-3,4000); a=D*D/8*(th-np.sin(th)); T=D*np.sin(th/2); y=D/2*(1-np.cos(th/2))
    E=y+a/(2*T); Q=np.sqrt(g*a**3/T); ok=np.concatenate([[True],np.diff(E)>0]); ok=np.minimum.accumulate(ok)
    Et,Qt=E[ok],Q[ok]
    st=np.array([0,.1,.2,.4,.8,1.2,1.4]);ar=np.array([120,1500,3600,4150,4500,4800,5000.])
    out={}
    for name,t0 in (('17:00',0),('18:00',3600)):
        h=np.full(n,.9); ready=np.full(n,np.nan); t=t0
        while np.isnan(ready).any() and t<86400:
            tail=.75+amp*np.cos(2*np.pi*t/(12.42*3600))+surge-.6
            head=np.maximum(0,h-np.maximum(tail,D/2))
            f=np.full(n,.0165)
            if mode=='colebrook':
                f=np.full(n,.0125)
                V=np.sqrt(2*g*np.maximum(head,1e-9)/(K+f*L/D))
                for _ in range(4):
                    Re=np.maximum(V*D/nu,4000); f=(-2*np.log10(eps/D/3.7+2.51/(Re*np.sqrt(f))))**-2
                    V=np.sqrt(2*g*np.maximum(head,1e-9)/(K+f*L/D))
            q=A*np.sqrt(2*g*head/(K+f*L/D))
            Ei=np.maximum(h*.95,0); qm=np.where(Ei>Et[-1],1e9,np.interp(Ei,Et,Qt))
            ratio=np.clip(np.where(tail>0,tail/np.maximum(h,1e-9),0),0,1)
            qm=qm*(1-ratio**1.5)**.385
            q=np.where(h>tail,np.minimum(q,qm),0)
            hn=h-60*q/(np.interp(h,st,ar)*area)
            hit=np.isnan(ready)&(hn<=.25); ready[hit]=t+60
            h=np.maximum(hn,0.01); t+=60
        ready=np.nan_to_num(ready,nan=1e9)
        out[name]=(round((ready>36000).mean(),3), [round(x/3600-7,2) for x in np.quantile(ready,[.1,.5,.9])])
    return out
for mode in ('colebrook','const'):
    for kn in (True,False): print(mode,'normal K' if kn else 'lognormal K',run(mode,kn))
