package scenarios_test
import ("testing";"pondwright.example/units";"pondwright.example/pumpsizing";"math")
func TestProbe(t *testing.T){
 d:=caneDrains(2,3.4)
 for _,h:=range []units.Length{1.6,.9,.3}{t.Log(h,d.Discharge(h,-10).In(units.CubicMetresPerHour), d.Control(h,-10))}
 t.Log(caneHours(d,0), caneHours(d,units.CubicMetresPerHour.Of(75)), caneHours(caneDrains(1,3.4),0))
 for _,b:=range []units.Length{.0254,.01905}{
 x:=must(caneDrive(b).ForFlow(caneHose(),units.CubicMetresPerHour.Of(360)))
 t.Log(x.Pump.Head,x.Pump.Speed.In(units.RevolutionsPerMinute),x.Pump.ShaftPower,x.PumpPressure.In(units.Bars),x.PTOPower,x.HeatToOil,x.Line.Regime,x.Line.Reynolds,x.OilFlow.In(units.LitresPerMinute))
 t.Logf("%+v %v %v",x.Tractor,x.Tractor.Fuel.In(units.LitresPerHour),x.Tractor.FuelFullThrottle.In(units.LitresPerHour))
 }
 for _,n:=range []float64{1,.9,.8,.7,.6}{q,err:=pumpsizing.TractorFuel(14.17/60,n,60*units.Kilowatt);t.Log(n,q.In(units.LitresPerHour),err)}
 for _,k:=range []float64{1-.25*1.2816,1,1+.25*1.2816}{t.Log(k,caneHours(caneDrains(2,math.Max(1,3.4*k)),0))}
}
